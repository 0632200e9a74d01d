import { describe, expect, it } from 'vitest';
import { relatednessOfYoung } from '#pedigree/relatednessOfYoung.ts';
import { seeded } from '#tests/helpers/randomHistory.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { Club, day, fish, parents, start } from './builders.ts';

const now = start + 400 * day;
/** Exact fractions: only the rounding of sums. */
const exact = { abs: 1e-12 };

/** A wild pair in the harbour room, whose young are split between harbour and mill. */
function siblings(): Club {
	const club = new Club();
	club.founders('father', 'harbour', fish(1, 0), 'unrelated');
	club.founders('mother', 'harbour', fish(0, 1), 'unrelated');
	club.spawn('march', 'harbour', {
		fathers: parents([['father', 'seen']]),
		mothers: parents([['mother', 'seen']])
	});
	club.bag('b1', {
		from: 'harbour',
		to: 'mill',
		contents: [{ group: 'march-young', fish: fish(0, 0, 6) }],
		group: 'mill-young'
	});
	return club;
}
function ask(club: Club, toRoom: string) {
	return relatednessOfYoung({ state: club.fold().state, line: 'cory', toRoom, now });
}
const of = (answer: ReturnType<typeof ask>, group: string) =>
	answer.candidates.find((one) => one.group === group)!;

describe('relatednessOfYoung: closed forms through records (Wright 1922)', () => {
	it('young of full brothers and sisters: 0.25, and a parent with its young as well', () => {
		const answer = ask(siblings(), 'mill');
		expectClose(of(answer, 'march-young').expected, 0.25, exact);
		expectClose(of(answer, 'father').expected, 0.25, exact);
		expect(of(answer, 'march-young').words).toBe('as close as brother and sister');
		expectClose(answer.have!.expected, 0.25, exact);
	});

	it('half brothers and sisters: 0.125', () => {
		const club = siblings();
		club.founders('second mother', 'harbour', fish(0, 1), 'unrelated');
		club.spawn('may', 'harbour', {
			fathers: parents([['father', 'seen']]),
			mothers: parents([['second mother', 'seen']]),
			at: 90
		});
		expectClose(of(ask(club, 'mill'), 'may-young').expected, 0.125, exact);
	});

	it('first cousins: 0.0625', () => {
		const club = siblings();
		for (const [room, group] of [
			['harbour', 'march-young'],
			['mill', 'mill-young']
		] as const) {
			club.founders(`${room} outsider`, room, fish(0, 1), 'unrelated');
			club.spawn(`${room} second`, room, {
				fathers: parents([[group, 'seen']]),
				mothers: parents([[`${room} outsider`, 'seen']]),
				at: 120
			});
			club.say(
				`${room}-keeper`,
				'group/changed',
				130,
				{ group, room, fish: fish(0, 0, 99), why: 'rehomed', cause: '' },
				[group]
			);
		}
		expectClose(of(ask(club, 'mill'), 'harbour second-young').expected, expectedFor(club), { abs: 1e-9 });

		/** The room's fish are its brood and the outsider: cousins with one, unrelated to the other. */
		function expectedFor(club: Club): number {
			const { groups } = club.fold().state;
			const young = groups.get('mill second-young')!.now.fish.unsexed;
			const outsider = 1;
			return (young * 0.0625) / (young + outsider);
		}
	});

	it('one of two possible fathers: half-way, with the range from unrelated to brother and sister', () => {
		const club = new Club();
		for (const name of ['first', 'second'])
			club.founders(`${name} father`, 'harbour', fish(1, 0), 'unrelated');
		for (const name of ['one', 'two']) club.founders(`mother ${name}`, 'harbour', fish(0, 1), 'unrelated');
		const first = parents([['first father', 'seen']]);
		club.spawn('march', 'harbour', { fathers: first, mothers: parents([['mother one', 'seen']]) });
		const either = parents([
			['first father', 'possible'],
			['second father', 'possible']
		]);
		club.spawn('april', 'mill', { fathers: either, mothers: parents([['mother two', 'seen']]), at: 60 });
		const figure = of(ask(club, 'mill'), 'march-young');
		// Half sibs if it was the first father (0.125), unrelated if the second: the mean of both (own arithmetic).
		expectClose(figure.expected, 0.0625, exact);
		expectClose(figure.least, 0, exact);
		expectClose(figure.greatest, 0.125, exact);
		expect(figure.sentence).toBe(
			'As close as cousins: 0.06, between 0.00 and 0.13, because the father of the brood of March 2025 is one of two.'
		);
	});

	it('an unlisted father takes a tenth: 0.9 of half brothers and sisters', () => {
		const club = siblings();
		club.founders('lone mother', 'mill', fish(0, 1), 'unrelated');
		club.say(
			'mill-keeper',
			'group/changed',
			70,
			{ group: 'mill-young', room: 'mill', fish: fish(0, 0, 6), why: 'rehomed', cause: '' },
			['mill-young']
		);
		club.spawn('june', 'mill', {
			fathers: parents([['father', 'likely']], true),
			mothers: parents([['lone mother', 'seen']]),
			at: 150
		});
		club.say(
			'mill-keeper',
			'group/changed',
			160,
			{ group: 'lone mother', room: 'mill', fish: fish(0, 1), why: 'died', cause: '' },
			['lone mother']
		);
		expectClose(of(ask(club, 'mill'), 'march-young').expected, 0.9 * 0.125, exact);
	});

	it('a trio: young of one father and two mothers are between full and half brothers and sisters', () => {
		const club = new Club();
		club.founders('trio', 'harbour', fish(1, 2), 'unrelated');
		const trio = parents([['trio', 'seen']], false, 'several');
		club.spawn('march', 'harbour', { fathers: trio, mothers: trio, young: 40 });
		club.bag('b1', {
			from: 'harbour',
			to: 'mill',
			contents: [{ group: 'march-young', fish: fish(0, 0, 10) }],
			group: 'mill-young'
		});
		// w = 1/8 (1/Nm + 1/Nf), Wright (1931), Genetics 16:97, for Nm = 1 and Nf = 2.
		expectClose(of(ask(club, 'mill'), 'march-young').expected, (1 / 8) * (1 + 1 / 2), exact);
	});

	it('fish of two bags put together are related as the mean of both (G6)', () => {
		const club = siblings();
		club.founders('other', 'orchard', fish(0, 0, 6), 'unrelated');
		club.bag('b2', {
			from: 'orchard',
			to: 'quarry',
			contents: [
				{ group: 'other', fish: fish(0, 0, 3) },
				{ group: 'mill-young', fish: fish(0, 0, 3) }
			],
			group: 'mixed'
		});
		expectClose(of(ask(club, 'quarry'), 'march-young').expected, 0.125, exact);
	});
});

describe('relatednessOfYoung: what is asked and answered', () => {
	it('gives the same answer whatever the order of arrival (seeds 1 to 5)', () => {
		const club = siblings();
		club.founders('fresh', 'orchard', fish(3, 4), 'unrelated');
		club.group('listed', 'quarry', fish(2, 2), { from: 'list', row: 'row 7' });
		const all = JSON.stringify(ask(club, 'mill'));
		for (let seed = 1; seed <= 5; seed++) {
			const random = seeded(seed);
			const fold = club.fold((written) =>
				written
					.map((one) => [random(), one] as const)
					.sort((a, b) => a[0] - b[0])
					.map(([, one]) => one)
			);
			expect(
				JSON.stringify(relatednessOfYoung({ state: fold.state, line: 'cory', toRoom: 'mill', now }))
			).toBe(all);
		}
	});

	it('ranks the least related first, and unknown origins after what is known to be fine', () => {
		const club = siblings();
		club.founders('fresh', 'orchard', fish(3, 4), 'unrelated');
		club.group('listed', 'quarry', fish(2, 2), { from: 'list', row: 'row 7' });
		const answer = ask(club, 'mill');
		expect(answer.candidates.map((one) => one.group)).toEqual([
			'fresh',
			'listed',
			'march-young',
			'father',
			'mother'
		]);
		expect(of(answer, 'fresh')).toMatchObject({
			words: 'not related as far as we know',
			tier: 'fine',
			unknown: false
		});
		expect(of(answer, 'listed')).toMatchObject({ words: 'not known', tier: 'notKnown', unknown: true });
		expect(of(answer, 'listed').howSure).toContain(
			'does not say where the first fish in quarry room came from'
		);
		expect(answer.nothingBetter).toBe(false);
	});

	it('says so when nothing is better than what the room has', () => {
		expect(ask(siblings(), 'mill').nothingBetter).toBe(true);
		const empty = ask(siblings(), 'quarry');
		expect(empty.have).toBeNull();
		expect(empty.nothingBetter).toBe(false);
	});

	it('leaves out closed tanks, closed rooms and quarantine, and says which', () => {
		const club = siblings();
		club.founders('shut', 'orchard', fish(1, 1), 'unrelated');
		club.say(
			'orchard-keeper',
			'group/closed',
			200,
			{ group: 'shut', room: 'orchard', reason: 'white spot' },
			['shut'],
			true
		);
		club.founders('far', 'quarry', fish(1, 1), 'unrelated');
		club.say('quarry-keeper', 'room/closed', 200, { room: 'quarry', reason: '' }, ['quarry'], true);
		const state = club.fold().state;
		const soon = start + 70 * day;
		const answer = relatednessOfYoung({ state, line: 'cory', toRoom: 'harbour', now: soon });
		expect(answer.candidates).toEqual([]);
		expect(answer.excluded.map((out) => [out.group, out.why])).toEqual([
			['far', 'closed room'],
			['mill-young', 'quarantine'],
			['shut', 'closed tank']
		]);
		expect(answer.excluded[1]!.until).toBeGreaterThan(soon);
		const later = relatednessOfYoung({ state, line: 'cory', toRoom: 'harbour', now });
		expect(later.candidates.map((one) => one.group)).toEqual(['mill-young']);
	});

	it('takes a bag without contents as from the giver’s groups, and shows what else it may be', () => {
		const club = siblings();
		club.founders('unrelated wild', 'harbour', fish(0, 0, 4), 'unrelated');
		club.bag('b3', {
			from: 'harbour',
			to: 'quarry',
			contents: [{ group: null, fish: fish(0, 0, 3) }],
			group: 'surprise'
		});
		const figure = of(ask(club, 'quarry'), 'march-young');
		expectClose(figure.least, 0, exact);
		expectClose(figure.greatest, 0.25, exact);
	});

	it('copes with origins that go round in a circle and with things not heard of', () => {
		const club = new Club();
		club.group(
			'hen',
			'harbour',
			fish(0, 0, 4),
			{ from: 'group', groups: ['egg'] },
			1,
			'counted',
			'cory',
			'officer'
		);
		club.group(
			'egg',
			'mill',
			fish(0, 0, 4),
			{ from: 'group', groups: ['hen'] },
			1,
			'counted',
			'cory',
			'officer'
		);
		club.group('lost', 'orchard', fish(0, 0, 4), { from: 'brood', spawn: 'never told' });
		club.group(
			'from nowhere',
			'quarry',
			fish(0, 0, 4),
			{ from: 'group', groups: ['never told'] },
			1,
			'counted',
			'cory',
			'officer'
		);
		const answer = ask(club, 'harbour');
		expect(answer.candidates).toHaveLength(3);
		for (const one of answer.candidates) expect(one.expected).toBeGreaterThanOrEqual(0);
	});

	it('leaves the state as it was', () => {
		const { state } = siblings().fold();
		const before = JSON.stringify([...state.groups]);
		relatednessOfYoung({ state, line: 'cory', toRoom: 'mill', now });
		expect(JSON.stringify([...state.groups])).toBe(before);
	});
});
