/** The states of a line and their limits: common practice, no source. */
import { describe, expect, test } from 'vitest';
import { holdings } from '#club/lines/holdings.ts';
import { lineState, type LineStateWord } from '#club/lines/lineState.ts';
import { linesOverview } from '#club/lines/linesOverview.ts';
import { ago, ClubOf, fish, today } from './clubOf.ts';

const rooms = ['harbour', 'mill', 'orchard', 'quarry', 'tower', 'weir'];

/** Rooms with the age in days of their last word; the line was entered 800 days ago. */
function stateOf(ages: readonly number[], more: (club: ClubOf) => void = () => undefined) {
	const club = new ClubOf();
	club.line('l');
	ages.forEach((age, i) => club.group(`g${i}`, rooms[i] ?? '', 'l', fish(2, 2), age));
	more(club);
	const line = club.state.lines.get('l');
	if (!line) throw new Error('the line was not folded');
	return lineState(line, holdings(club.state, line, today), today);
}

describe('lineState: the first that fits', () => {
	test.each<[string, readonly number[], LineStateWord, string]>([
		['five fresh rooms', [1, 2, 3, 4, 5], 'safe', '5 rooms confirmed'],
		['five rooms on day 90', [90, 90, 90, 90, 90], 'safe', '5 rooms confirmed'],
		['five rooms, one ageing from day 91', [1, 2, 3, 4, 91], 'watch', '5 rooms confirmed'],
		['six rooms, one ageing', [1, 2, 3, 4, 5, 91], 'safe', '6 rooms confirmed'],
		['four rooms', [1, 2, 3, 4], 'watch', '4 rooms confirmed'],
		['four rooms on day 180, one after it', [180, 180, 180, 180, 181], 'watch', '4 rooms confirmed, 1 not'],
		['three rooms', [1, 2, 3], 'at risk', '3 rooms confirmed'],
		['three confirmed, three not', [1, 2, 3, 200, 200, 200], 'at risk', '3 rooms confirmed, 3 not'],
		['one room', [1], 'last room', '1 room confirmed'],
		['one room, not confirmed', [200], 'last room', '0 rooms confirmed, 1 not'],
		['no room confirmed, less than a year of silence', [200, 300], 'at risk', '0 rooms confirmed, 2 not'],
		['no room confirmed for a year', [180 + 365, 700], 'possibly lost', '0 rooms confirmed, 2 not'],
		['one day less than a year of silence', [180 + 364, 700], 'at risk', '0 rooms confirmed, 2 not']
	])('%s', (_name, ages, word, because) => {
		const state = stateOf(ages);
		expect([state.word, state.because]).toEqual([word, because]);
	});

	test('everybody said no: possibly lost', () => {
		const state = stateOf([100], (club) => club.check('harbour', 'l', 'no', 1));
		expect([state.word, state.because]).toEqual(['possibly lost', 'no room holds it']);
	});

	test('no room was ever said to have it: not asked yet, nothing has gone; after a year possibly lost', () => {
		const club = new ClubOf().line('new', 'guppy', 364).line('old', 'guppy', 365);
		const word = (id: string) => lineState(club.state.lines.get(id)!, [], today).word;
		expect([word('new'), word('old')]).toEqual(['not asked yet', 'possibly lost']);
	});

	test('only an old list: not asked yet, until a room answers', () => {
		const club = new ClubOf().line('l', 'corydoras', 3);
		club.group('g', 'harbour', 'l', fish(1, 2, 6), 3, {
			origin: { from: 'list', row: 'x' },
			certainty: 'old list'
		});
		const line = club.state.lines.get('l')!;
		const before = lineState(line, holdings(club.state, line, today), today);
		expect([before.word, before.because, before.isNew]).toEqual([
			'not asked yet',
			'1 room on the list',
			true
		]);
		club.check('harbour', 'l', 'yes', 0);
		expect(lineState(club.state.lines.get('l')!, holdings(club.state, line, today), today).word).toBe(
			'last room'
		);
	});

	test('the coordinator’s word comes first, and can be taken back', () => {
		const say = (state: string) => (club: ClubOf) =>
			void club.write('officer', {
				kind: 'line/stateSaid',
				happened: ago(0),
				about: ['l'],
				body: { line: 'l', state, reason: 'r' }
			});
		expect(stateOf([1, 2, 3, 4, 5], say('retired')).word).toBe('retired');
		expect(stateOf([1, 2, 3, 4, 5], say('lost')).word).toBe('lost');
		expect(
			stateOf([1, 2, 3, 4, 5], (club) => {
				say('lost')(club);
				say('kept')(club);
			}).word
		).toBe('safe');
	});

	test('rooms sharing a house count once, as the freshest of them', () => {
		const club = new ClubOf(['harbour/one', 'mill/one', 'orchard']).line('l');
		club
			.group('a', 'harbour', 'l', fish(1, 1), 10)
			.group('b', 'mill', 'l', fish(1, 1), 300)
			.group('c', 'orchard', 'l', fish(1, 1), 10);
		const line = club.state.lines.get('l')!;
		const state = lineState(line, holdings(club.state, line, today), today);
		expect([state.confirmed, state.unconfirmed]).toEqual([2, 0]);
	});

	test.each([
		[120, 'holds it'],
		[121, 'not confirmed']
	])('annual killifish are confirmed for 120 days: day %d, %s', (age, word) => {
		const club = new ClubOf().line('k', 'annual killifish').group('g', 'mill', 'k', fish(2, 4), age);
		expect(holdings(club.state, club.state.lines.get('k')!, today)[0]?.word).toBe(word);
	});

	test('a line’s own rules go before the usual ones', () => {
		const rules = {
			targetRooms: 4,
			confirmedDays: 30,
			ageingDays: 10,
			neverCrossWith: '',
			spareToPublic: true
		};
		const set = (club: ClubOf) =>
			void club.write('officer', {
				kind: 'line/rulesSet',
				happened: ago(0),
				about: ['l'],
				body: { line: 'l', rules }
			});
		expect(stateOf([1, 2, 3, 4], set).word).toBe('safe');
		expect(stateOf([1, 2, 3, 31], set)).toMatchObject({ word: 'at risk', confirmed: 3, unconfirmed: 1 });
	});
});

describe('linesOverview(state)', () => {
	const club = new ClubOf()
		.line('safe')
		.line('lone', 'guppy')
		.line('gone')
		.line('young', 'guppy', 20, { kind: 'strain', localityVerbatim: 'São Tomé' });
	rooms.forEach((room, i) => club.group(`s${i}`, room, 'safe', fish(1, 1), 5));
	club.group('l', 'mill', 'lone', fish(3, 4), 5).group('g', 'mill', 'gone', fish(1, 1), 300);
	club.check('mill', 'gone', 'no', 2);
	const ask = (args: Parameters<typeof linesOverview>[1], me = 'officer') =>
		linesOverview(club.state, args, club.asking(me)).rows.map((row) => row.id);

	test('most endangered first', () => expect(ask({})).toEqual(['gone', 'lone', 'young', 'safe']));
	test('search finds every word, without accents and capitals', () => {
		expect(ask({ search: 'sao young' })).toEqual(['young']);
		expect(ask({ search: 'GUPPY' })).toEqual(['lone', 'young']);
		expect(ask({ search: 'guppy nothing' })).toEqual([]);
	});
	test('filters narrow together', () => {
		expect(ask({ kinds: ['strain'] })).toEqual(['young']);
		expect(ask({ states: ['last room', 'safe'] })).toEqual(['lone', 'safe']);
		expect(ask({ mine: true }, 'mill-keeper')).toEqual(['lone', 'safe']);
	});
	test('only an officer opens lines', () => {
		expect(linesOverview(club.state, {}, club.asking()).mayOpen).toBe(true);
		expect(linesOverview(club.state, {}, club.asking('mill-keeper')).mayOpen).toBe(false);
	});
});
