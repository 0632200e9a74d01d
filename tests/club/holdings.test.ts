import { describe, expect, test } from 'vitest';
import { holdings, type Holding } from '#club/lines/holdings.ts';
import { groupPage } from '#club/groups/groupPage.ts';
import { linePage } from '#club/lines/linePage.ts';
import { ago, ClubOf, day, fish, today } from './clubOf.ts';

function heldAt(club: ClubOf, room = 'harbour'): Holding {
	const found = holdings(club.state, club.state.lines.get('l')!, today).find((each) => each.room === room);
	if (!found) throw new Error(`no holding in ${room}`);
	return found;
}
const harbour = () => new ClubOf().line('l').group('g', 'harbour', 'l', fish(2, 3), 300);

describe('holdings: what confirms a room', () => {
	test.each<[string, (club: ClubOf) => void]>([
		['a "yes"', (club) => club.check('harbour', 'l', 'yes', 10)],
		['a count', (club) => club.counted('g', 'harbour', fish(2, 2), 10)],
		['a guess', (club) => club.counted('g', 'harbour', fish(0, 0, 8), 10, 'about')],
		[
			'a spawn',
			(club) => {
				const parents = { of: [], others: true, number: 'not known' };
				const body = {
					...{
						spawn: 's',
						brood: 'b',
						line: 'l',
						room: 'harbour',
						inGroup: 'g',
						sort: 'spawn',
						stage: 'laid'
					},
					...{ mothers: parents, fathers: parents, fish: fish(0, 0), certainty: 'about' }
				};
				club.write(
					'harbour-keeper',
					{ kind: 'spawn/seen', happened: ago(10), about: ['s', 'b', 'g'], body },
					10
				);
			}
		],
		[
			'a bag that arrived alive',
			(club) => {
				const body = {
					bag: 'x',
					room: 'harbour',
					group: 'n',
					line: 'l',
					alive: fish(1, 1),
					dead: 0,
					certainty: 'counted',
					tank: ''
				};
				club.write('harbour-keeper', { kind: 'bag/arrived', happened: ago(10), about: ['x', 'n'], body }, 10);
			}
		]
	])('%s', (_name, tell) => {
		const club = harbour();
		expect(heldAt(club).word).toBe('not confirmed');
		tell(club);
		expect(heldAt(club)).toMatchObject({ word: 'holds it', confirmed: today - 10 * day });
	});

	test.each<[string, (club: ClubOf) => void]>([
		['"not sure"', (club) => club.check('harbour', 'l', 'unsure', 1)],
		['another room’s count', (club) => club.group('m', 'mill', 'l', fish(1, 1), 1)],
		[
			'a count by somebody with no part in it, until a keeper says so',
			(club) => {
				const body = { group: 'g', room: 'harbour', fish: fish(2, 2), certainty: 'counted' };
				club.write('mill-keeper', { kind: 'group/counted', happened: ago(1), about: ['g'], body }, 1);
			}
		],
		[
			'a loss',
			(club) => {
				const body = { group: 'g', room: 'harbour', fish: fish(1, 0), why: 'died', cause: '' };
				club.write('harbour-keeper', { kind: 'group/changed', happened: ago(1), about: ['g'], body }, 1);
			}
		]
	])('%s does not', (_name, tell) => {
		const club = harbour();
		tell(club);
		expect(heldAt(club).word).toBe('not confirmed');
	});

	test('an uncertain day ages from its first moment', () => {
		const club = harbour();
		const body = { room: 'harbour', line: 'l', has: 'yes', breeding: 'unknown', note: '' };
		club.write('harbour-keeper', {
			kind: 'room/checkedIn',
			happened: '2026-04',
			about: ['harbour', 'l'],
			body
		});
		expect(heldAt(club).confirmed).toBe(Date.UTC(2026, 3, 1));
	});
});

describe('holdings: what ends one', () => {
	test('a "no"', () => {
		const club = harbour();
		club.check('harbour', 'l', 'no', 5);
		expect(heldAt(club).word).toBe('no longer has it');
		expect(linePage(club.state, { line: 'l' }, club.asking())).toMatchObject({
			rooms: [],
			heldBefore: [{ room: 'harbour' }],
			groups: []
		});
	});
	test('a count after the "no" brings it back', () => {
		const club = harbour();
		club.check('harbour', 'l', 'no', 5);
		club.counted('g', 'harbour', fish(1, 1), 4);
		expect(heldAt(club).word).toBe('holds it');
	});
	test('a late note of a count before the "no" does not', () => {
		const club = harbour();
		club.check('harbour', 'l', 'no', 5);
		club.counted('g', 'harbour', fish(1, 1), 6);
		expect(heldAt(club).word).toBe('no longer has it');
	});
	test('every group told to be empty after a "yes"', () => {
		const club = harbour();
		club.check('harbour', 'l', 'yes', 9);
		club.counted('g', 'harbour', fish(0, 0), 5);
		expect(heldAt(club).word).toBe('no longer has it');
	});
	test('a "yes" after the last group was empty: a group nobody wrote down', () => {
		const club = harbour();
		club.counted('g', 'harbour', fish(0, 0), 9);
		club.check('harbour', 'l', 'yes', 5);
		expect(heldAt(club)).toMatchObject({ word: 'holds it', groups: [], certainty: 'not known' });
	});
});

test('linePage: since when, from whom, how many, who answered', () => {
	const club = harbour().group('m', 'mill', 'l', fish(0, 0, 7), 20, { certainty: 'about' });
	club.write('officer', {
		kind: 'group/started',
		happened: `2019-05/${ago(0)}`,
		about: ['o'],
		body: {
			...{
				group: 'o',
				line: 'l',
				room: 'orchard',
				name: '',
				tank: '',
				origin: { from: 'list', row: 'as typed' }
			},
			...{ fish: fish(1, 2, 6), certainty: 'old list', stage: null }
		}
	});
	const page = linePage(club.state, { line: 'l' }, club.asking('mill-keeper'))!;
	expect(
		page.rooms.map((room) => [room.room, room.word, room.sinceText.slice(0, 7), room.came, room.mine])
	).toEqual([
		['mill', 'holds it', ago(20).slice(0, 7), 'as founders from a friend', true],
		['harbour', 'not confirmed', ago(300).slice(0, 7), 'as founders from a friend', false],
		['orchard', 'unknown', '2019-05', 'from an old list', false]
	]);
	expect(page.fish).toEqual(fish(3, 5, 13));
	expect(page.certainty).toBe('about');
	expect(page.answered).toEqual({ of: 3, answered: 1, days: 180 });
	expect(page.people.map((person) => person.what)).toEqual([
		'keeps mill room',
		'keeps harbour room',
		'keeps orchard room'
	]);
});

test('linePage of a line not heard of is nothing', () => {
	const club = harbour();
	expect(linePage(club.state, { line: 'nowhere' }, club.asking())).toBeNull();
});

test('a keeper’s word by phone: an officer closes the tank for the keeper, not for nobody', () => {
	const club = harbour();
	const closed = (toldBy?: string) =>
		groupPage(
			(club.write('officer', {
				...{ kind: 'group/closed', happened: ago(0), about: ['g'] },
				...(toldBy ? { toldBy } : {}),
				body: { group: 'g', room: 'harbour', reason: '' }
			}),
			club.state),
			{ group: 'g' },
			club.asking()
		);
	expect(closed()?.closed).toBe(false);
	const page = closed('harbour-keeper');
	expect([page?.closed, page?.keeper?.id]).toEqual([true, 'harbour-keeper']);
});
