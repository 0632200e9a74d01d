/** Random club histories of every kind of entry, from a seed: the same seed gives the same history. */
import type { FoldInput } from '#records/fold.ts';
import type { Entry } from '#records/entry.ts';

export interface History {
	readonly inputs: FoldInput[];
}

/** Small, well-known generator (mulberry32, public domain, from memory): good enough to shuffle tests with. */
export function seeded(seed: number): () => number {
	let state = seed >>> 0;
	return () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let t = state;
		t = Math.imul(t ^ (t >>> 15), t | 1);
		t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
		return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
	};
}

export function uuid7(time: number, counter: number): string {
	const hex = time.toString(16).padStart(12, '0');
	return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-7000-8000-${counter.toString(16).padStart(12, '0')}`;
}

export const start = Date.UTC(2024, 0, 1);
export const day = 86_400_000;

/** @param tangle how often an entry corrects another, 0 to 1 */
export function randomHistory(seed: number, size: number, tangle = 0.12): History {
	const random = seeded(seed);
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
	const chance = (p: number) => random() < p;
	const whole = (n: number) => Math.floor(random() * n);
	let counter = 0;
	let n = 0;
	const inputs: FoldInput[] = [];
	const entries: Entry[] = [];
	const members = ['m1', 'm2', 'm3', 'm4', 'm5'];
	const rooms = ['r1', 'r2', 'r3', 'r4'];
	const lines = ['l1', 'l2', 'l3'];
	const groups = ['g1', 'g2', 'g3', 'g4', 'g5', 'g6', 'g7', 'g8'];
	const spawns = ['s1', 's2', 's3'];
	const bags = ['b1', 'b2', 'b3', 'b4', 'b5', 'b6'];
	const exchanges = ['x1', 'x2'];
	const meetings = ['t1', 't2'];
	const numbers = ['', '0417A', '0418B', '0419C'];
	const fish = () => ({ males: whole(4), females: whole(4), unsexed: whole(8) });
	const happened = (time: number) => {
		const iso = new Date(time).toISOString();
		return pick([
			iso.slice(0, 16) + 'Z',
			iso.slice(0, 10),
			iso.slice(0, 7),
			`${iso.slice(0, 10)}~`,
			`${iso.slice(0, 7)}-01/${iso.slice(0, 10)}`
		]);
	};
	const put = (kind: string, body: unknown, by: string, about: string[] = [], corrects: string[] = []) => {
		const time =
			start +
			inputs.length * (day / 4) +
			(chance(0.1) ? -whole(30) * day : 0) +
			(chance(0.03) ? 40 * day : 0);
		counter += 1;
		const entry: Entry = {
			id: uuid7(time, counter),
			kind,
			version: 1,
			by,
			device: `${by}-phone`,
			...(chance(0.1) ? { toldBy: pick(members) } : {}),
			happened: by === 'club' ? new Date(time).toISOString() : happened(time - whole(20) * day),
			about,
			...(corrects.length ? { corrects } : {}),
			body
		};
		entries.push(entry);
		const stamped = by === 'club' || chance(0.6);
		if (stamped) n += 1;
		inputs.push(stamped ? { entry, stamp: { id: entry.id, n, time: time + whole(5) * 1000 } } : { entry });
	};
	put(
		'club/opened',
		{
			club: 'c',
			name: 'Club',
			timeZone: pick(['Europe/Berlin', 'UTC', 'Pacific/Auckland']),
			region: '',
			askedBy: null
		},
		'club'
	);
	for (const member of members) put('club/memberJoined', { member, name: member, askedBy: null }, 'club');
	for (const room of rooms)
		put('club/roomOpened', { room, name: room, region: '', house: '', askedBy: null }, 'club');
	const makers: (() => [string, unknown])[] = [
		() => [
			'club/keeperAdded',
			{ room: pick(rooms), member: pick(members), epoch: `e${counter}`, askedBy: null }
		],
		() => [
			'club/keeperRemoved',
			{ room: pick(rooms), member: pick(members), epoch: `e${counter}`, askedBy: null }
		],
		() => {
			const role = pick(['officer', 'coordinator', 'deputy', 'runner'] as const);
			const of = role === 'officer' ? null : role === 'runner' ? pick(meetings) : pick(lines);
			return [
				pick(['club/roleGiven', 'club/roleGiven', 'club/roleEnded']),
				{ member: pick(members), role, of, askedBy: null }
			];
		},
		() => ['club/memberLeft', { member: 'm5', name: 'former', askedBy: null }],
		() => ['line/opened', { line: pick(lines), definition: definition(counter) }],
		() => ['line/described', { line: pick(lines), definition: definition(counter) }],
		() => ['line/stateSaid', { line: pick(lines), state: pick(['lost', 'kept', 'retired']), reason: '' }],
		() => ['line/wanted', { line: pick(lines), room: pick(rooms), note: '' }],
		() => ['line/wantEnded', { line: pick(lines), room: pick(rooms) }],
		() => [
			'room/checkedIn',
			{
				room: pick(rooms),
				line: pick(lines),
				has: pick(['yes', 'no', 'unsure']),
				breeding: 'unknown',
				note: ''
			}
		],
		() => [
			'club/distanceSaid',
			{ club: 'c', one: pick(['Coast', 'Hills']), other: pick(['Hills', 'Vale']), far: chance(0.7) }
		],
		() => ['room/closed', { room: pick(rooms), reason: '' }],
		() => ['room/tanksFree', { room: pick(rooms), line: chance(0.5) ? pick(lines) : null, tanks: whole(4) }],
		() => ['room/reopened', { room: pick(rooms) }],
		() => [
			'group/started',
			{
				group: pick(groups),
				line: pick(lines),
				room: pick(rooms),
				name: `n${counter}`,
				tank: '',
				origin: chance(0.5) ? { from: 'group', groups: [pick(groups)] } : { from: 'not known' },
				fish: fish(),
				certainty: 'counted',
				stage: null
			}
		],
		() => [
			'group/counted',
			{
				group: pick(groups),
				room: chance(0.5) ? pick(rooms) : null,
				fish: fish(),
				certainty: pick(['counted', 'about'])
			}
		],
		() => [
			'group/changed',
			{ group: pick(groups), room: null, fish: fish(), why: pick(['died', 'added', 'rehomed']), cause: '' }
		],
		() => ['group/moved', { from: pick(groups), to: pick(groups), room: null, fish: fish() }],
		() => [
			'group/stageReached',
			{ group: pick(groups), room: null, stage: pick(['hatched', 'sexed', 'ended']) }
		],
		() => ['group/named', { group: pick(groups), room: null, name: `n${counter}`, tank: '' }],
		() => ['group/closed', { group: pick(groups), room: pick(rooms), reason: '' }],
		() => ['group/reopened', { group: pick(groups), room: pick(rooms) }],
		() => ['group/quarantineSet', { group: pick(groups), room: null, until: '2024-06-01', reason: '' }],
		() => ['group/mixed', { group: pick(groups), room: null, line: pick(lines), sort: 'other', what: '' }],
		() => [
			'group/spareOffered',
			{ group: pick(groups), room: pick(rooms), fish: fish(), until: '', note: '' }
		],
		() => ['group/eggsStored', { group: pick(groups), room: null, label: '', checkDue: '', wetDue: '' }],
		() => [
			'spawn/seen',
			{
				spawn: pick(spawns),
				brood: pick(groups),
				line: pick(lines),
				room: pick(rooms),
				inGroup: pick(groups),
				sort: 'spawn',
				mothers: parents(),
				fathers: parents(),
				stage: 'laid',
				fish: fish(),
				certainty: 'about'
			}
		],
		() => ['spawn/parentsSaid', { spawn: pick(spawns), room: null, mothers: parents(), fathers: parents() }],
		() => [
			'bag/bagged',
			{
				bag: pick(bags),
				number: pick(numbers),
				line: chance(0.7) ? pick(lines) : null,
				contents: chance(0.7) ? [{ group: pick(groups), fish: fish() }] : [],
				fromRoom: chance(0.7) ? pick(rooms) : null,
				to: chance(0.7) ? { to: 'room', room: pick(rooms) } : null,
				meeting: chance(0.3) ? pick(meetings) : null,
				exchange: chance(0.3) ? pick(exchanges) : null,
				note: ''
			}
		],
		() => [
			'bag/handedOver',
			{ bag: pick(bags), fromRoom: null, toRoom: chance(0.5) ? pick(rooms) : null, meeting: null }
		],
		() => [
			'bag/arrived',
			{
				bag: pick(bags),
				room: pick(rooms),
				group: pick(groups),
				line: null,
				alive: fish(),
				dead: whole(2),
				certainty: 'counted',
				tank: ''
			}
		],
		() => ['bag/givenBack', { bag: pick(bags), room: null, note: '' }],
		() => ['bag/failed', { bag: pick(bags), room: null, how: 'lost', note: '' }],
		() => ['bag/dayCount', { bag: pick(bags), room: null, alive: whole(6), note: '' }],
		() => ['bag/joined', { bags: [pick(bags), pick(bags)], meeting: null }],
		() => ['bag/parted', { bags: [pick(bags), pick(bags)], meeting: null }],
		() => ['bag/settled', { bag: pick(bags), room: null, note: '' }],
		() => [
			'exchange/proposed',
			{
				exchange: pick(exchanges),
				line: pick(lines),
				gives: [{ fromRoom: pick(rooms), group: null, fish: fish() }],
				toRoom: pick(rooms),
				meeting: null,
				note: '',
				reason: '',
				asked: chance(0.5)
			}
		],
		() => ['exchange/asked', { exchange: pick(exchanges), line: pick(lines) }],
		() => [
			'exchange/answered',
			{
				exchange: pick(exchanges),
				line: pick(lines),
				room: pick(rooms),
				answer: pick(['yes', 'no', 'later']),
				until: '',
				reason: ''
			}
		],
		() => ['exchange/calledOff', { exchange: pick(exchanges), line: pick(lines), reason: '' }],
		() => ['meeting/planned', { meeting: pick(meetings), name: 'Hall', date: '2024-05-01', place: '' }],
		() => ['meeting/calledOff', { meeting: pick(meetings) }],
		() => ['meeting/attending', { meeting: pick(meetings), room: pick(rooms), coming: chance(0.5) }],
		() => ['word/confirmed', { entry: pick(entries).id }],
		() => ['word/disputed', { entry: pick(entries).id, reason: 'r' }],
		() => {
			const dispute = entries.filter((entry) => entry.kind === 'word/disputed');
			const one = dispute.length ? pick(dispute) : pick(entries);
			return [
				'word/decided',
				{
					dispute: one.id,
					of: (one.body as { entry?: string }).entry ?? pick(entries).id,
					stands: chance(0.5),
					reason: ''
				}
			];
		},
		() => ['word/withdrawn', { reason: '' }],
		() => ['future/kind', { anything: true }],
		() => ['group/counted', { group: 7 }]
	];
	function parents() {
		return {
			of: [{ group: pick(groups), standing: pick(['seen', 'likely', 'possible', 'ruled out'] as const) }],
			others: chance(0.5),
			number: 'one' as const
		};
	}
	function definition(i: number) {
		return {
			code: `C${i}`,
			name: `Line ${i}`,
			kind: 'strain',
			fishGroup: pick(['guppy', 'annual killifish'] as const),
			taxonVerbatim: '',
			taxonTidy: '',
			localityVerbatim: '',
			localityCode: '',
			source: '',
			movement: 'none'
		};
	}
	while (inputs.length < size) {
		const [kind, body] = pick(makers)();
		const members5 = pick(members);
		const by = kind.startsWith('club/') && kind !== 'club/distanceSaid' && !chance(0.1) ? 'club' : members5;
		const corrected = kind === 'word/withdrawn' || chance(tangle) ? [pick(entries).id] : [];
		const same = chance(0.7) ? entries.filter((entry) => entry.kind === kind) : [];
		const corrects =
			corrected.length && same.length && kind !== 'word/withdrawn' ? [pick(same).id] : corrected;
		if (corrects.length && chance(0.2)) corrects.push(pick(entries).id);
		put(kind, body, by, groups.slice(0, 1), [...new Set(corrects)]);
	}
	// A circle of corrections: ids known beforehand, as only a dishonest device could write.
	if (chance(0.5)) {
		const ids = Array.from({ length: 2 + whole(3) }, (_, i) => uuid7(start + (5 + i) * day, 9_000_001 + i));
		const base = { kind: 'group/counted', version: 1, by: 'm1', device: 'm1-phone', about: ['g1'] };
		ids.forEach((id, i) => {
			const body = { group: pick(groups), room: 'r1', fish: fish(), certainty: 'counted' };
			const corrects = [ids[(i + 1) % ids.length] ?? ''];
			inputs.push({ entry: { ...base, id, happened: '2024-01-05', body, corrects } });
		});
	}
	return { inputs };
}

export function shuffled<T>(list: readonly T[], seed: number): T[] {
	const random = seeded(seed);
	const copy = [...list];
	for (let i = copy.length - 1; i > 0; i--) {
		const j = Math.floor(random() * (i + 1));
		[copy[i], copy[j]] = [copy[j] as T, copy[i] as T];
	}
	return copy;
}
