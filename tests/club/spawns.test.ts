import { describe, expect, test } from 'vitest';
import { broodClock } from '#club/spawns/broodClock.ts';
import { expectedStages } from '#club/spawns/expectedStages.ts';
import { nextStages } from '#club/spawns/nextStages.ts';
import { possibleParents } from '#club/spawns/possibleParents.ts';
import { spawnStart } from '#club/spawns/spawnStart.ts';
import type { FishGroup } from '#records/state.ts';
import { ago, ClubOf, day, fish, today } from './clubOf.ts';

/** Females of a colony in the mill came to the harbour by bag, so many days ago. */
function mothersMoved(fishGroup: FishGroup, daysAgo: number): ClubOf {
	const club = new ClubOf().line('l', fishGroup).group('colony', 'mill', 'l', fish(3, 5), 600);
	const contents = [{ group: 'colony', fish: fish(0, 2) }];
	const bagged = {
		bag: 'x',
		number: '',
		line: 'l',
		contents,
		fromRoom: 'mill',
		to: { to: 'room', room: 'harbour' }
	};
	const body = { ...bagged, meeting: null, exchange: null, note: '' };
	club.write(
		'mill-keeper',
		{ kind: 'bag/bagged', happened: ago(daysAgo), about: ['x', 'colony'], body },
		daysAgo
	);
	const arrived = {
		bag: 'x',
		room: 'harbour',
		group: 'new',
		line: 'l',
		alive: fish(0, 2),
		dead: 0,
		certainty: 'counted',
		tank: ''
	};
	club.write(
		'harbour-keeper',
		{ kind: 'bag/arrived', happened: ago(daysAgo), about: ['x', 'new'], body: arrived },
		daysAgo
	);
	return club;
}
const fathersOf = (club: ClubOf, group: string) =>
	possibleParents(club.state, { room: 'harbour', group, at: today }).fathers.map((each) => [
		each.group,
		each.standing
	]);

describe('possibleParents: how far back a father is possible (common practice, no source)', () => {
	test.each<[string, FishGroup, number, readonly string[]]>([
		['a guppy moved nine months ago: stored sperm of ten months', 'guppy', 270, ['colony']],
		['a guppy moved eleven months ago: none', 'guppy', 335, []],
		['any other livebearer is treated as a guppy', 'livebearer', 270, ['colony']],
		['a goodeid moved three months ago: no sperm is stored', 'goodeid', 90, []],
		['a goodeid moved four weeks ago: the brood that she carries', 'goodeid', 28, ['colony']],
		['an egg layer moved yesterday: only her own tank', 'corydoras', 1, []]
	])('%s', (_name, fishGroup, daysAgo, fathers) => {
		expect(fathersOf(mothersMoved(fishGroup, daysAgo), 'new').map(([group]) => group)).toEqual(fathers);
	});

	test('the males that she lives with now are likely, those of before possible', () => {
		const club = mothersMoved('guppy', 100);
		const body = { group: 'new', room: 'harbour', fish: fish(2, 0), why: 'added', cause: '' };
		club.write('harbour-keeper', { kind: 'group/changed', happened: ago(50), about: ['new'], body }, 50);
		expect(fathersOf(club, 'new')).toEqual([
			['new', 'likely'],
			['colony', 'possible']
		]);
	});

	describe('a bag given back unopened', () => {
		/** Two females of the harbour were in a bag with these, and came back the same evening. */
		function cameBack(
			with_: { readonly group: string | null; readonly fish: ReturnType<typeof fish> },
			daysAgo = 30
		) {
			const club = new ClubOf()
				.line('l', 'guppy')
				.group('home', 'harbour', 'l', fish(0, 4), 600)
				.group('males', 'harbour', 'l', fish(3, 0), 600)
				.group('before', 'harbour', 'l', fish(2, 0), 600);
			// The males had lived elsewhere before: that is no trail of hers.
			club.write(
				'harbour-keeper',
				{
					kind: 'group/moved',
					happened: ago(daysAgo + 60),
					about: ['before', 'males'],
					body: { from: 'before', to: 'males', room: 'harbour', fish: fish(1, 0) }
				},
				daysAgo + 60
			);
			const contents = [{ group: 'home', fish: fish(0, 2) }, with_];
			const bag = { bag: 'x', number: '', line: 'l', contents, fromRoom: 'harbour', to: { to: 'open' } };
			club.write(
				'harbour-keeper',
				{
					kind: 'bag/bagged',
					happened: ago(daysAgo),
					about: ['x', 'home'],
					body: { ...bag, meeting: null, exchange: null, note: '' }
				},
				daysAgo
			);
			const body = { bag: 'x', room: 'harbour', note: '' };
			club.write('harbour-keeper', { kind: 'bag/givenBack', happened: ago(daysAgo - 1), about: ['x'], body });
			return club;
		}
		const possible = (club: ClubOf) =>
			possibleParents(club.state, { room: 'harbour', group: 'home', at: today });

		test('the males in the bag with her are possible, and nobody further back', () => {
			const club = cameBack({ group: 'males', fish: fish(2, 0) });
			expect(fathersOf(club, 'home')).toEqual([['males', 'possible']]);
			expect(possible(club).fathers[0]?.because).toMatch(/^in one bag with her until/);
			expect(possible(club).otherFathers).toBe(false);
		});
		test('females alone in the bag: no father from it', () => {
			expect(fathersOf(cameBack({ group: 'males', fish: fish(0, 2) }), 'home')).toEqual([]);
		});
		test('fish of a group not said in the bag: a father may be unknown', () => {
			expect(possible(cameBack({ group: null, fish: fish(0, 0, 2) })).otherFathers).toBe(true);
		});
		test('longer ago than sperm is stored: none', () => {
			expect(fathersOf(cameBack({ group: 'males', fish: fish(2, 0) }, 400), 'home')).toEqual([]);
		});
	});

	test('"don’t know which male" takes every possible one and says whether another may be', () => {
		const club = mothersMoved('guppy', 100);
		const possible = possibleParents(club.state, { room: 'harbour', group: 'new', at: today });
		expect(possible.fathersDefault).toEqual({
			of: [{ group: 'colony', standing: 'possible' }],
			others: false,
			number: 'not known'
		});
	});

	test('bought inside the window: mated before she came, a father may be unknown', () => {
		const club = new ClubOf().line('l', 'guppy').group('g', 'harbour', 'l', fish(1, 2), 60);
		const possible = possibleParents(club.state, { room: 'harbour', group: 'g', at: today });
		expect(possible.otherFathers).toBe(true);
		expect(possible.fathersDefault.others).toBe(true);
	});

	test('bought before the window: nobody else', () => {
		const club = new ClubOf().line('l', 'guppy').group('g', 'harbour', 'l', fish(1, 2), 400);
		expect(possibleParents(club.state, { room: 'harbour', group: 'g', at: today }).otherFathers).toBe(false);
	});

	test('split out of another group: the males there until then', () => {
		const club = new ClubOf().line('l', 'guppy').group('old', 'harbour', 'l', fish(4, 4), 500);
		club.group('part', 'harbour', 'l', fish(0, 3), 30, { origin: { from: 'group', groups: ['old'] } });
		expect(fathersOf(club, 'part').map(([group]) => group)).toEqual(['old']);
	});

	test('brothers too young to breed are left out of the default and shown', () => {
		const club = new ClubOf().line('l', 'guppy').group('g', 'harbour', 'l', fish(0, 2), 400);
		const parents = { of: [], others: true, number: 'not known' };
		const seen = (spawn: string, brood: string, inGroup: string | null, daysAgo: number) =>
			club.write(
				'harbour-keeper',
				{
					kind: 'spawn/seen',
					happened: ago(daysAgo),
					about: [spawn, brood],
					body: {
						...{ spawn, brood, line: 'l', room: 'harbour', inGroup, sort: 'drop', stage: 'free-swimming' },
						...{ mothers: parents, fathers: parents, fish: fish(0, 0, 20), certainty: 'about' }
					}
				},
				daysAgo
			);
		seen('s', 'young', 'g', 20);
		const possible = possibleParents(club.state, { room: 'harbour', group: 'young', at: today });
		expect(possible.fathers).toMatchObject([{ group: 'young', tooYoung: true }]);
		expect(possible.fathersDefault).toEqual({ of: [], others: true, number: 'not known' });
	});

	test('the one female counted is the mother seen; of several nobody knows which', () => {
		const club = new ClubOf()
			.line('l')
			.group('one', 'harbour', 'l', fish(1, 1), 40)
			.group('two', 'harbour', 'l', fish(1, 2), 40);
		const of = (group: string) =>
			possibleParents(club.state, { room: 'harbour', group, at: today }).mothersDefault;
		expect(of('one')).toEqual({ of: [{ group: 'one', standing: 'seen' }], others: false, number: 'one' });
		expect(of('two')).toEqual({
			of: [{ group: 'two', standing: 'possible' }],
			others: false,
			number: 'not known'
		});
	});
});

describe('expectedStages(fishGroup, reached)', () => {
	const laid = { stage: 'laid' as const, when: { first: 0, last: 0 } };
	const days = (ms: number) => Math.round(ms / day);
	const said = (fishGroup: FishGroup, reached = [laid] as Parameters<typeof expectedStages>[1]) =>
		expectedStages(fishGroup, reached).map((each) => [each.stage, days(each.earliest), days(each.latest)]);

	test('bristlenose: hatched on day 3 to 5, swimming 5 to 8 days later (common practice, no source)', () => {
		expect(said('bristlenose').slice(0, 2)).toEqual([
			['hatched', 3, 5],
			['free-swimming', 8, 13]
		]);
	});
	test('rainbowfish: 4 to 9 days to hatch (Humphrey, Klumpp & Pearson 2003; Reid & Holdway 1995)', () => {
		expect(said('rainbowfish')[0]).toEqual(['hatched', 4, 9]);
	});
	test('counts on from the day that was told', () => {
		const hatched = { stage: 'hatched' as const, when: { first: 6 * day, last: 6 * day } };
		expect(said('bristlenose', [laid, hatched])[0]).toEqual(['free-swimming', 11, 14]);
	});
	test('a stage that was skipped is not expected any more', () => {
		const swims = { stage: 'free-swimming' as const, when: { first: 9 * day, last: 9 * day } };
		expect(said('corydoras', [laid, swims]).map(([stage]) => stage)).toEqual(['sexed']);
	});
	test('nothing told, nothing expected', () => expect(expectedStages('guppy', [])).toEqual([]));
	test.each(Object.keys(broodClock) as FishGroup[])(
		'%s: no stage is expected to end before it begins',
		(fishGroup) => {
			for (const each of expectedStages(fishGroup, [laid]))
				expect(each.latest).toBeGreaterThanOrEqual(each.earliest);
		}
	);
});

test('nextStages: livebearers have no eggs, only annual killifish rest in peat', () => {
	expect(nextStages('guppy', 'free-swimming')[0]).toBe('growing on');
	expect(nextStages('guppy', null)).not.toContain('laid');
	expect(nextStages('corydoras', 'laid')[0]).toBe('eyed');
	expect(nextStages('annual killifish', 'laid')[0]).toBe('eggs in peat');
	expect(nextStages('corydoras', 'ended')).toEqual([]);
});

test('spawnStart: groups with both sexes first; eggs and fry are not asked about', () => {
	const club = new ClubOf()
		.line('l')
		.group('males', 'harbour', 'l', fish(2, 0), 20)
		.group('pair', 'harbour', 'l', fish(1, 1), 20);
	const body = { group: 'males', room: 'harbour', stage: 'adult' };
	club.write('harbour-keeper', { kind: 'group/stageReached', happened: ago(1), about: ['males'], body });
	club.group('fry', 'harbour', 'l', fish(0, 0, 30), 5);
	club.write('harbour-keeper', {
		kind: 'group/stageReached',
		happened: ago(1),
		about: ['fry'],
		body: { ...body, group: 'fry', stage: 'free-swimming' }
	});
	const start = spawnStart(club.state, { room: 'harbour', group: 'pair' }, club.asking());
	expect(start?.groups.map((group) => group.id)).toEqual(['pair', 'males']);
	expect(start?.chosen?.sort).toBe('spawn');
});
