import { describe, expect, it } from 'vitest';
import { kinds } from '#records/kinds.ts';
import { fishOf, newClub, type Story } from './story.ts';
import { memberOf, roles, table, type Scene } from './verdictTable.ts';

const letter = {
	counts: 'C',
	'told by': 'T',
	waiting: 'W',
	'not allowed': 'N',
	'not understood': 'U'
} as const;

function scene(): { story: Story; scene: Scene } {
	const story = newClub();
	story.tell('olga', 'meeting/planned', {
		meeting: 't1',
		name: 'Spring hall',
		date: '2026-04-18',
		place: ''
	});
	story.start('kim', 'g1', 'r1', 'lA', fishOf(2, 3, 0));
	story.start('kim', 'g2', 'r1', 'lA', fishOf(1, 1, 0));
	const parents = { of: [], others: true, number: 'not known' };
	const spawn = { spawn: 's1', brood: 'brood', line: 'lA', room: 'r1', inGroup: 'g1', sort: 'drop' };
	const young = { stage: 'free-swimming', fish: fishOf(0, 0, 20), certainty: 'about' };
	story.tell('kim', 'spawn/seen', { ...spawn, mothers: parents, fathers: parents, ...young });
	const to = { to: 'room', room: 'r2' };
	story.bag('kim', 'b1', { number: '0417K', line: 'lA', fromRoom: 'r1', to, meeting: 't1' });
	story.tell('cora', 'exchange/proposed', {
		exchange: 'x1',
		line: 'lA',
		gives: [{ fromRoom: 'r1', group: 'g1', fish: fishOf(1, 0, 0) }],
		toRoom: 'r2',
		meeting: null,
		note: '',
		reason: '',
		asked: true
	});
	const counted = story.count('kim', 'g1', fishOf(2, 2, 0));
	const disputed = story.tell('nora', 'word/disputed', { entry: counted, reason: 'I saw three' });
	return { story, scene: { counted, disputed } };
}

function probe(kind: string, by: string, toldBy: string | null): string {
	const { story, scene: ids } = scene();
	const row = table[kind];
	const corrects = row?.corrects?.(ids);
	const telling = { ...(toldBy ? { toldBy } : {}), ...(corrects ? { corrects } : {}) };
	const id = story.tell(by, kind, row?.body(ids), telling);
	const verdict = story.fold().view(id)?.verdict;
	// Whatever does not count says why.
	expect(verdict?.name === 'counts').toBe(verdict?.why === '');
	return verdict ? letter[verdict.name] : '?';
}

describe('who may say what', () => {
	it('[R20] the table has every kind, and no other', () => {
		expect(Object.keys(table).sort()).toEqual([...kinds.keys()].sort());
	});

	it.each(Object.keys(table))('[R21] [R25] [R26] [R27] [R29] %s, by every role', (kind) => {
		const found = roles.map((role) => probe(kind, memberOf[role], role.includes('told by') ? 'kim' : null));
		expect(Object.fromEntries(roles.map((role, i) => [role, found[i]]))).toEqual(
			Object.fromEntries(roles.map((role, i) => [role, table[kind]?.expected[i]]))
		);
	});

	it('[R29] what only the server writes counts from the server', () => {
		for (const [name, kind] of kinds) {
			if (kind.nature !== 'server') continue;
			const { story, scene: ids } = scene();
			const id = story.tell('club', name, table[name]?.body(ids));
			expect([name, story.fold().view(id)?.verdict.name]).toEqual([name, 'counts']);
		}
	});
});

describe('rights in time', () => {
	const verdictOf = (story: Story, id: string) => story.fold().view(id)?.verdict.name;

	it('[R21] a former keeper speaks for the time of keeping, and a new one does not', () => {
		const story = newClub();
		story.start('kim', 'g1', 'r1', 'lA', fishOf(2, 3, 0), { happened: '2025-11-01' });
		const before = story.count('fay', 'g1', fishOf(2, 2, 0), { happened: '2025-12-01' });
		const after = story.count('fay', 'g1', fishOf(2, 2, 0));
		const joining = new Date(story.now).toISOString();
		story.now += 86_400_000;
		story.club('club/keeperAdded', { room: 'r1', member: 'nora', epoch: 'e9' });
		const early = story.count('nora', 'g1', fishOf(1, 1, 0), { happened: joining });
		const late = story.count('nora', 'g1', fishOf(1, 1, 0));
		expect([before, after, early, late].map((id) => verdictOf(story, id))).toEqual([
			'counts',
			'told by',
			'told by',
			'counts'
		]);
	});

	it('[R22] first keepers and holders of a role speak for the time before the record; nobody after leaving', () => {
		const story = newClub();
		const old = story.start('kim', 'g1', 'r1', 'lA', fishOf(2, 3, 0), { happened: '2019' });
		const byCoordinator = story.count('cora', 'g1', fishOf(1, 1, 0), { happened: '2019' });
		const whileMember = story.count('lena', 'g1', fishOf(1, 1, 0), { happened: '2025-12-31' });
		const afterLeaving = story.count('lena', 'g1', fishOf(1, 1, 0));
		expect([old, byCoordinator, whileMember, afterLeaving].map((id) => verdictOf(story, id))).toEqual([
			'counts',
			'counts',
			'counts',
			'told by'
		]);
	});

	it('[R25] a decision is judged by the rows with a smaller number, whatever its time', () => {
		const story = newClub();
		const body = { line: 'lA', text: '', throws: '' };
		const before = story.tell('cora', 'line/standardSet', body);
		story.club('club/roleEnded', { member: 'cora', role: 'coordinator', of: 'lA' });
		const after = story.tell('cora', 'line/standardSet', body, {
			clock: story.now - 86_400_000,
			happened: '2025-12-30'
		});
		expect([before, after].map((id) => verdictOf(story, id))).toEqual(['counts', 'not allowed']);
	});

	it('[R25] coordinator and officer answer for a side with toldBy only, and only for a side', () => {
		const { story } = scene();
		const body = { exchange: 'x1', line: 'lA', answer: 'yes', until: '', reason: '' };
		const phone = story.tell('cora', 'exchange/answered', { ...body, room: 'r2' }, { toldBy: 'kai' });
		const alone = story.tell('cora', 'exchange/answered', { ...body, room: 'r2' });
		const noSide = story.tell('olga', 'exchange/answered', { ...body, room: 'r3' }, { toldBy: 'kit' });
		const kit = story.tell('kit', 'exchange/answered', { ...body, room: 'r3' });
		expect([phone, alone, noSide, kit].map((id) => verdictOf(story, id))).toEqual([
			'counts',
			'not allowed',
			'not allowed',
			'not allowed'
		]);
	});
});

describe('parts in a thing', () => {
	const verdictOf = (story: Story, id: string) => story.fold().view(id)?.verdict.name;

	it('[R23] naming a room of one’s own gives no part in fish that another room holds', () => {
		const { story } = scene();
		const body = { group: 'g1', fish: fishOf(9, 9, 9), certainty: 'counted' };
		const id = story.tell('kit', 'group/counted', { ...body, room: 'r3' });
		const unheard = story.tell('kit', 'group/counted', { ...body, group: 'unheard', room: 'r3' });
		expect(verdictOf(story, id)).toBe('told by');
		expect(verdictOf(story, unheard)).toBe('counts');
	});

	it('[R23] keeping fish of a line does not speak for other rooms’ fish of it', () => {
		const { story } = scene();
		story.start('kit', 'g3', 'r3', 'lA', fishOf(1, 1, 0));
		expect(verdictOf(story, story.count('kit', 'g1', fishOf(0, 0, 1)))).toBe('told by');
	});

	it('[R24] nobody takes over a group by letting it arrive or be born elsewhere', () => {
		const { story } = scene();
		story.bag('kit', 'mine', { fromRoom: 'r3' });
		const arrived = story.arrive('kit', 'mine', 'r3', 'g1', fishOf(0, 0, 0));
		const parents = { of: [], others: true, number: 'not known' };
		const brood = { line: 'lA', room: 'r3', inGroup: null, sort: 'drop', mothers: parents, fathers: parents };
		const born = story.tell('kit', 'spawn/seen', {
			spawn: 'sX',
			brood: 'g1',
			...brood,
			stage: 'laid',
			fish: fishOf(0, 0, 0),
			certainty: 'about'
		});
		expect([arrived, born].map((id) => verdictOf(story, id))).toEqual(['told by', 'told by']);
		expect(story.fold().state.groups.get('g1')?.room).toBe('r1');
	});

	it('[R24] fish moved between rooms need somebody of each; one tap of the other room does', () => {
		const { story } = scene();
		story.start('kit', 'g3', 'r3', 'lA', fishOf(1, 1, 0));
		const moved = story.tell('kit', 'group/moved', {
			from: 'g1',
			to: 'g3',
			room: null,
			fish: fishOf(1, 0, 0)
		});
		expect(verdictOf(story, moved)).toBe('told by');
		expect(story.fold().state.groups.get('g1')?.now.fish).toEqual(fishOf(2, 2, 0));
		story.tell('kim', 'word/confirmed', { entry: moved });
		expect(verdictOf(story, moved)).toBe('counts');
		expect(story.fold().state.groups.get('g1')?.now.fish).toEqual(fishOf(1, 2, 0));
	});

	it('[R24] a group split off another room’s fish waits for that room', () => {
		const { story } = scene();
		const body = { line: 'lA', room: 'r3', name: '', tank: '', certainty: 'counted', stage: null };
		const origin = { from: 'group', groups: ['g1'] };
		const id = story.tell('kit', 'group/started', { group: 'g9', ...body, origin, fish: fishOf(2, 0, 0) });
		expect(verdictOf(story, id)).toBe('told by');
		expect(story.fold().state.groups.get('g1')?.now.fish).toEqual(fishOf(2, 2, 0));
	});

	it('[R27] one tap of somebody with a part makes a told fact count; taken back, it no longer does', () => {
		const { story } = scene();
		const told = story.count('nora', 'g1', fishOf(5, 0, 0));
		const friend = story.tell('fay', 'word/confirmed', { entry: told });
		expect(verdictOf(story, friend)).toBe('told by');
		expect(verdictOf(story, told)).toBe('told by');
		const tap = story.tell('kim', 'word/confirmed', { entry: told });
		expect(verdictOf(story, told)).toBe('counts');
		const back = story.tell('kim', 'word/withdrawn', { reason: 'wrong tank' }, { corrects: [tap] });
		expect(verdictOf(story, told)).toBe('told by');
		story.tell('kim', 'word/withdrawn', { reason: '' }, { corrects: [back] });
		expect(verdictOf(story, told)).toBe('counts');
	});

	it('[R27] a tap does not lean on what it confirms', () => {
		const story = newClub();
		// nora tells that an unheard group began in r1: her own word places it there, but gives her no part in it.
		const started = story.start('nora', 'gX', 'r1', 'lA', fishOf(1, 1, 0));
		story.tell('nora', 'word/confirmed', { entry: started });
		expect(verdictOf(story, started)).toBe('told by');
	});

	it('[R26] a decision names a dispute of that very entry, and decides nothing of the server’s', () => {
		const { story, scene: ids } = scene();
		const other = story.count('kim', 'g2', fishOf(1, 0, 0));
		const body = { stands: false, reason: '' };
		const noDispute = story.tell('cora', 'word/decided', { dispute: other, of: other, ...body });
		const otherEntry = story.tell('cora', 'word/decided', { dispute: ids.disputed, of: other, ...body });
		const joined = story.inputs[1]?.entry?.id ?? '';
		const doubt = story.tell('nora', 'word/disputed', { entry: joined, reason: '' });
		const server = story.tell('olga', 'word/decided', { dispute: doubt, of: joined, ...body });
		expect([noDispute, otherEntry, server].map((id) => verdictOf(story, id))).toEqual(
			Array(3).fill('not allowed')
		);
	});

	it('[R28] what it names may still come: another entry, a stamp, a group, an exchange', () => {
		const story = newClub();
		const later = new Date(story.now).toISOString();
		const tap = story.tell('kim', 'word/confirmed', { entry: '01900000-0000-7000-8000-00000000ffff' });
		const noStamp = story.tell(
			'kim',
			'group/closed',
			{ group: 'g1', room: 'r1', reason: '' },
			{ stamped: false }
		);
		const group = story.tell('kim', 'group/closed', { group: 'late', room: null, reason: '' });
		const exchange = { exchange: 'late', line: 'lA' };
		const called = story.tell('kim', 'exchange/calledOff', { ...exchange, reason: '' });
		const answer = { room: 'r1', answer: 'yes', until: '', reason: '' };
		const answered = story.tell('kim', 'exchange/answered', { ...exchange, ...answer });
		const waiting = [tap, noStamp, group, called, answered];
		expect(waiting.map((id) => verdictOf(story, id))).toEqual(Array(5).fill('waiting'));
		// Both were written before, and come late.
		story.start('kim', 'late', 'r1', 'lA', fishOf(1, 1, 0), { clock: Date.parse(later) });
		expect(verdictOf(story, group)).toBe('counts');
	});
});
