import { describe, expect, it } from 'vitest';
import { stopSentence } from '#season/clashSentence.ts';
import { roomPage } from '#club/rooms/roomPage.ts';
import { dateIn, fish, roomOf, SeasonClub } from './seasonClub.ts';

const small = () =>
	new SeasonClub()
		.line('blue')
		.group('colony', 'harbour', 'blue', fish(5, 7))
		.group('trio', 'mill', 'blue', fish(1, 2));
const wordsOf = (club: SeasonClub, settings = {}) =>
	club.asked(settings).words.rooms.find(({ id }) => id === 'mill')?.tanks;
const tanksOf = (club: SeasonClub, settings = {}) => roomOf(club.asked(settings), 'mill')?.tanksFree;

describe('tanks free for newcomers in a plan', () => {
	it('as the room said, with who and when; not said: as many as bags may come in', () => {
		const club = small();
		expect(tanksOf(club)).toBe(2);
		expect(wordsOf(club)).toBe(
			'Nobody has said how many tanks are free: the plan counts with as many as bags may come in.'
		);
		club.tanks('mill', 1, 23, { happened: '2026-11-03' });
		expect(tanksOf(club)).toBe(1);
		expect(wordsOf(club)).toBe('One tank free, said by mill-keeper on 3 November 2026.');
		expect(tanksOf(club.tanks('mill', 0, 2))).toBe(0);
		expect(wordsOf(club)).toContain('No tanks free, said by');
	});

	it('by phone: who said it and who typed it', () => {
		const club = small();
		const body = { room: 'mill', line: 'blue', tanks: 3 };
		club.say('cora', 'room/tanksFree', body, 1, { toldBy: 'mill-keeper', happened: dateIn(-1) });
		expect(tanksOf(club)).toBe(3);
		expect(wordsOf(club)).toBe(
			'Three tanks free, said by mill-keeper, by phone through cora on 25 November 2026.'
		);
	});

	it('what the planner types stands before it', () => {
		const club = small().tanks('mill', 1, 2);
		const limits = { mill: { tanksFree: 4 } };
		expect([tanksOf(club, { limits }), wordsOf(club, { limits })]).toEqual([4, '']);
	});

	it('a bag that came since stands in one, as does one that is promised or on its way', () => {
		const club = small().tanks('mill', 3, 10);
		club.bag('b', 'harbour', 'mill', 'colony', 'blue', fish(1, 0), 4);
		expect(tanksOf(club)).toBe(2);
		expect(wordsOf(club)).toMatch(/ One bag came since: 2 left\.$/);
		club.propose('x', 'blue', 'harbour', 'colony', fish(1, 0), 'mill');
		expect(tanksOf(club)).toBe(1);
		const bag = { number: '', line: 'blue', fromRoom: 'harbour', note: '', meeting: null, exchange: null };
		const contents = [{ group: 'colony', fish: fish(1, 0) }];
		club.say(
			'harbour-keeper',
			'bag/bagged',
			{ bag: 'c', ...bag, contents, to: { to: 'room', room: 'mill' } },
			1
		);
		expect(tanksOf(club)).toBe(0);
	});

	it('bags that came before do not count, and never fewer than none', () => {
		const club = small().tanks('mill', 1, 10);
		club.bag('before', 'harbour', 'mill', 'colony', 'blue', fish(1, 0), 12);
		expect(tanksOf(club)).toBe(1);
		club.bag('b', 'harbour', 'mill', 'colony', 'blue', fish(1, 0), 4);
		club.bag('c', 'harbour', 'mill', 'colony', 'blue', fish(1, 0), 3);
		expect(tanksOf(club)).toBe(0);
	});

	it('a word grows old: shown after 45 days, not gone by after 90', () => {
		const age = (daysAgo: number) => {
			const club = small().tanks('mill', 7, daysAgo);
			const fold = club.fold();
			const page = roomPage(fold.state, { room: 'mill' }, club.asking(fold, 'mill-keeper'));
			return [page?.tanksFree?.age, tanksOf(club)];
		};
		expect(age(40)).toEqual(['fresh', 7]);
		expect(age(50)).toEqual(['ageing', 7]);
		expect(age(91)).toEqual(['too old', 2]);
		expect(wordsOf(small().tanks('mill', 7, 91))).toMatch(
			/^Seven tanks free, said by mill-keeper on .* That is too long ago: the plan counts with /
		);
	});

	it('the stop of a bag that finds no tank says so, and where the number comes from', () => {
		const asked = small().tanks('mill', 1, 2, { happened: '2026-11-24' }).asked();
		const room = asked.problem.rooms.findIndex(({ id }) => id === 'mill');
		expect(stopSentence(asked, { stop: 'tanks', room })).toBe(
			'Mill room has one tank free for fish from elsewhere. One tank free, said by mill-keeper on 24 November 2026.'
		);
	});

	it('the start of a plan tells it room by room', () => {
		const { rooms } = small().tanks('mill', 1, 2).start('cora');
		expect(rooms.filter(({ tanksFree }) => tanksFree !== null).map(({ id }) => id)).toEqual(['mill']);
		expect(rooms.every(({ tanks }) => tanks !== '')).toBe(true);
	});

	it('who may say so: keepers, officers, and whoever looks after a line', () => {
		const club = small();
		const fold = club.fold();
		const may = (me: string) =>
			roomPage(fold.state, { room: 'mill' }, club.asking(fold, me))?.mayTellTanks ?? null;
		expect(['mill-keeper', 'officer', 'cora', 'harbour-keeper'].map(may)).toEqual([
			...[{ line: null }, { line: null }, { line: 'blue' }, null]
		]);
	});
});
