import { describe, expect, test } from 'vitest';
import type { GroupEvent } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { kinshipWithin } from '#genetics/groups/kinshipWithin.ts';
import { kinshipWithSelf } from '#genetics/groups/kinshipWithSelf.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { founders, kinshipTolerance, merge, one, several, spawn, split } from './builders.ts';

function close(actual: number, expected: number, what?: string) {
	expectClose(actual, expected, kinshipTolerance, what);
}
const deepFreeze = <T>(value: T): T => {
	if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(deepFreeze);
	return value;
};

describe('close relatives have the kinship of the textbooks', () => {
	// Wright 1922, American Naturalist 56:330; values standard, recomputed by hand.
	const table = groupKinship([
		...['f', 'm', 'm2', 'x', 'y'].map((unit) => founders(unit)),
		spawn('f', 'm', ['child', 1], ['sister', 1]),
		spawn('f', 'm2', ['half', 1]),
		spawn('x', 'sister', ['cousinA', 1]),
		spawn('child', 'y', ['cousinB', 1]),
		spawn('cousinB', one([null, 1]), ['removed', 1])
	]);
	test.each([
		['parent and young', 'f', 'child', 1 / 4],
		['full sibs', 'child', 'sister', 1 / 4],
		['half sibs', 'child', 'half', 1 / 8],
		['grandparent', 'f', 'cousinA', 1 / 8],
		['uncle and niece', 'child', 'cousinA', 1 / 8],
		['first cousins', 'cousinA', 'cousinB', 1 / 16],
		['first cousins once removed', 'cousinA', 'removed', 1 / 32],
		['founders', 'f', 'm', 0]
	])('%s', (_name, a, b, expected) => close(kinshipBetween(table, [a], [b]), expected));

	test('three-quarter sibs 3/16 and double first cousins 1/8', () => {
		const wider = groupKinship([
			...['a', 'b', 'c', 'd'].map((unit) => founders(unit)),
			spawn('a', 'b', ['s1', 1], ['d1', 1]),
			spawn('c', 'd', ['s2', 1], ['d2', 1]),
			spawn('s1', 'd2', ['x', 1]),
			spawn('s2', 'd1', ['y', 1]),
			// Three-quarter sibs: one mother, and fathers who are full brothers.
			spawn('a', 'b', ['s3', 1]),
			spawn('s1', 'd', ['p', 1]),
			spawn('s3', 'd', ['q', 1])
		]);
		close(kinshipBetween(wider, ['x'], ['y']), 1 / 8);
		close(kinshipBetween(wider, ['p'], ['q']), 3 / 16);
	});
});

test('full-sib mating follows the published series', () => {
	// Wright 1921, Genetics 6:124; Falconer & Mackay 1996, chapter 5 table (from memory); F = (1 + 2F' + F'')/4.
	const series = [0, 1 / 4, 3 / 8, 1 / 2, 19 / 32, 43 / 64, 47 / 64, 201 / 256, 423 / 512, 55 / 64];
	const events: GroupEvent[] = [founders('m0'), founders('f0')];
	for (let t = 1; t <= series.length; t++)
		events.push(spawn(`m${t - 1}`, `f${t - 1}`, [`m${t}`, 1], [`f${t}`, 1]));
	const table = groupKinship(events);
	series.forEach((expected, t) => close(inbreedingOf(table, [`m${t + 1}`]), expected, `generation ${t}`));
});

test('one male with his many half sisters follows the half-sib series', () => {
	// F = (1 + F'' + 6F')/8: Crow & Kimura 1970 and Falconer as cited in later texts; numbers recomputed.
	// The series is for so many mothers that no two young share one.
	const many = 1e9;
	const series = [0, 1 / 8, 7 / 32, 39 / 128, 195 / 512, 919 / 2048, 4171 / 8192];
	const events: GroupEvent[] = [founders('s0'), founders('W0', many)];
	series.forEach((_, t) => events.push(spawn(`s${t}`, `W${t}`, [`s${t + 1}`, 1], [`W${t + 1}`, many])));
	const table = groupKinship(events);
	series.forEach((expected, t) =>
		expectClose(inbreedingOf(table, [`s${t + 1}`]), expected, { abs: 10 / many }, `generation ${t}`)
	);
});

test('young bred back to one outbred parent follow the published series', () => {
	// Falconer & Mackay 1996 (from memory): F = (1 + 2F')/4.
	const series = [0, 1 / 4, 3 / 8, 7 / 16, 15 / 32, 31 / 64, 63 / 128, 127 / 256];
	const events: GroupEvent[] = [founders('sire'), founders('d0')];
	series.forEach((_, t) => events.push(spawn('sire', `d${t}`, [`d${t + 1}`, 1])));
	const table = groupKinship(events);
	series.forEach((expected, t) => close(inbreedingOf(table, [`d${t + 1}`]), expected));
});

describe('a colony', () => {
	test.each([
		[1, 1],
		[1, 3],
		[2, 5],
		[10, 10]
	])('%i males and %i females: within = 1/8 (1/Nm + 1/Nf)', (males, females) => {
		// Wright 1931, Genetics 16:97.
		const table = groupKinship([founders('M', males), founders('W', females), spawn('M', 'W', ['fry', 20])]);
		close(kinshipWithin(table, ['fry']), (1 / males + 1 / females) / 8);
		close(inbreedingOf(table, ['fry']), 0);
	});

	test('two broods of the same colony are as close as two fish of one of them', () => {
		// Follows from the recursion: a pair of young of different broods draws its parents in the same way.
		const table = groupKinship([
			founders('M', 3),
			founders('W', 4),
			spawn('M', 'W', ['first', 5]),
			spawn('M', 'W', ['second', 6])
		]);
		close(kinshipBetween(table, ['first'], ['second']), kinshipWithin(table, ['first']));
	});

	test('an unsexed pair gives full sibs, an unsexed group the same as its halves', () => {
		// Own derivation: half of the group is male.
		const pair = groupKinship([founders('pair', 2), spawn('pair', 'pair', ['fry', 9])]);
		close(kinshipWithin(pair, ['fry']), 1 / 4);
		const mixed = groupKinship([founders('all', 6, { within: 0.1 }), spawn('all', 'all', ['fry', 9])]);
		const sexed = groupKinship([
			founders('M', 6, { within: 0.1 }),
			split('W', 'M', 3),
			spawn('M', 'W', ['fry', 9])
		]);
		close(kinshipWithin(mixed, ['fry']), kinshipWithin(sexed, ['fry']));
		close(inbreedingOf(mixed, ['fry']), 0.1);
		close(kinshipBetween(mixed, ['fry'], ['all']), kinshipBetween(sexed, ['fry'], ['M', 'W']));
	});
});

describe('uncertain fathers', () => {
	const candidates: [string, number][] = [
		['s1', 0.6],
		['s2', 0.3],
		['s3', 0.1]
	];
	const start = [...['s1', 's2', 's3', 'd'].map((unit) => founders(unit))];

	test('one unknown father of .6/.3/.1 gives 0.25 within, several give 0.1825', () => {
		// Own derivation: [sum w s + 1/2]/4 against [sum w² s + 1/2]/4.
		const byOne = groupKinship([...start, spawn(one(...candidates), 'd', ['fry', 8])]);
		const bySeveral = groupKinship([...start, spawn(several(...candidates), 'd', ['fry', 8])]);
		close(kinshipWithin(byOne, ['fry']), 0.25);
		close(kinshipWithin(bySeveral, ['fry']), 0.1825);
		for (const table of [byOne, bySeveral])
			candidates.forEach(([sire, weight]) => close(kinshipBetween(table, ['fry'], [sire]), weight / 4));
	});

	test('one father unknown among two, one of them the brother of the mother', () => {
		// By hand: F = 1/2 x 1/4 + 1/2 x 0.
		const table = groupKinship([
			founders('p'),
			founders('q'),
			founders('stranger'),
			spawn('p', 'q', ['brother', 1], ['sister', 1]),
			spawn(one(['brother', 0.5], ['stranger', 0.5]), 'sister', ['fry', 4])
		]);
		close(inbreedingOf(table, ['fry']), 1 / 8);
		// Young and mother: [s of the mother + mean kinship of the candidates with her]/2.
		close(kinshipBetween(table, ['fry'], ['sister']), (1 / 2 + 1 / 8) / 2);
	});

	test('two broods of one unknown father are half sibs when he is named, and less when he is not', () => {
		// By hand: half sibs 1/8 (Wright 1922); two independent draws share a father with chance .46: .46/8.
		const named = { ...one(...candidates), name: 'him' };
		const same = groupKinship([
			...start,
			founders('e'),
			spawn(named, 'd', ['a', 3]),
			spawn('him', 'e', ['b', 3])
		]);
		const apart = groupKinship([
			...start,
			founders('e'),
			spawn(one(...candidates), 'd', ['a', 3]),
			spawn(one(...candidates), 'e', ['b', 3])
		]);
		close(kinshipBetween(same, ['a'], ['b']), 1 / 8);
		close(kinshipBetween(apart, ['a'], ['b']), 0.46 / 8);
		close(kinshipWithin(same, ['a']), kinshipWithin(apart, ['a']));
	});

	test('father and mother both named: their further broods are full sibs of the first', () => {
		// By hand: brother or stranger with sister; F = 1/8 in every brood, and K = [s + s + 2 x 1/8]/4.
		const him = { ...one(['brother', 0.5], ['stranger', 0.5]), name: 'him' };
		const table = groupKinship([
			...['p', 'q', 'stranger'].map((unit) => founders(unit)),
			spawn('p', 'q', ['brother', 1], ['sister', 1]),
			spawn(him, { ...one('sister'), name: 'her' }, ['first', 2]),
			spawn('him', 'her', ['second', 2])
		]);
		close(kinshipBetween(table, ['him'], ['her']), 1 / 8);
		close(inbreedingOf(table, ['second']), 1 / 8);
		close(kinshipBetween(table, ['first'], ['second']), (1 + 1 / 4) / 4);
		close(kinshipWithin(table, ['first']), (1 + 1 / 4) / 4);
		close(kinshipBetween(table, ['her'], ['first']), (1 / 2 + 1 / 8) / 2);
	});

	test('an outside father is no relation, and one fish for the brood', () => {
		const table = groupKinship([founders('d'), spawn(several([null, 1]), 'd', ['fry', 5])]);
		close(kinshipWithin(table, ['fry']), 1 / 4);
		close(inbreedingOf(table, ['fry']), 0);
	});

	test('a known unequal share of fathers: half the sum of squares', () => {
		// Own derivation: [sum c² s + s_d]/4 for unrelated fathers.
		const table = groupKinship([
			founders('a'),
			founders('b'),
			founders('d'),
			spawn(several(['a', 0.9], ['b', 0.1]), 'd', ['fry', 5])
		]);
		close(kinshipWithin(table, ['fry']), (0.82 / 2 + 1 / 2) / 4);
	});
});

describe('split and merged groups', () => {
	const brood = [founders('f'), founders('m'), spawn('f', 'm', ['fry', 10])];

	test('fish that leave are as close to the rest as two fish of the brood', () => {
		const table = groupKinship([...brood, split('bag', 'fry', 4)]);
		close(kinshipBetween(table, ['bag'], ['fry']), 1 / 4);
		close(kinshipWithin(table, ['bag', 'fry']), 1 / 4);
		expect(table.count[table.index.get('fry')!]).toBe(6);
	});

	test('a group that all have left stands for the fish it held', () => {
		// Two draws with replacement from 10 full sibs: 1/2/10 + 9/10/4.
		const table = groupKinship([...brood, split('moved', 'fry', 10)]);
		close(kinshipBetween(table, ['moved'], ['fry']), 0.05 + 0.225);
		const late = groupKinship([founders('d'), spawn('fry', 'd', ['late', 1])], table);
		close(kinshipBetween(late, ['late'], ['moved']), 0.275 / 2);
	});

	test('merging the parts gives the whole back', () => {
		const table = groupKinship([...brood, split('bag', 'fry', 4), merge('again', 'bag', 'fry')]);
		close(kinshipWithin(table, ['again']), 1 / 4);
		close(kinshipBetween(table, ['again'], ['f']), 1 / 4);
		close(kinshipWithSelf(table, ['again']), 0.5 / 10 + 0.25 * 0.9);
	});

	test('strangers merged: only pairs from one side are related', () => {
		// By hand: 2 x (3 x 2)/2 related pairs of 15, each 1/4.
		const table = groupKinship([
			founders('a', 3, { within: 0.25 }),
			founders('b', 3, { within: 0.25 }),
			merge('c', 'a', 'b')
		]);
		close(kinshipWithin(table, ['c']), (6 / 15) * 0.25);
	});

	test('asking about several groups is asking about them merged', () => {
		const events = [
			...brood,
			founders('wild', 3, { inbreeding: 0.2 }),
			spawn('wild', 'm', ['mix', 4]),
			founders('x')
		];
		const apart = groupKinship(events);
		const merged = groupKinship([...events, merge('all', 'fry', 'mix')]);
		close(kinshipWithin(apart, ['fry', 'mix']), kinshipWithin(merged, ['all']));
		close(kinshipWithSelf(apart, ['fry', 'mix']), kinshipWithSelf(merged, ['all']));
		close(inbreedingOf(apart, ['fry', 'wild']), (0.2 * 3) / 13);
		close(kinshipBetween(apart, ['fry', 'mix'], ['wild']), kinshipBetween(merged, ['all'], ['wild']));
	});
});

test('a shop brood: fish of one unknown pair, and two tanks of one shop', () => {
	const table = groupKinship([
		founders('a', 4, { within: 0.25 }),
		{ kind: 'founders', unit: 'b', count: 4, within: 0.25, related: [{ unit: 'a', kinship: 0.125 }] },
		spawn('a', 'b', ['fry', 3])
	]);
	close(inbreedingOf(table, ['fry']), 0.125);
});

test('events and the earlier table are not changed, and going on is the same as starting over', () => {
	const first = deepFreeze([
		founders('f', 2),
		founders('m', 3),
		spawn('f', 'm', ['a', 4])
	] satisfies GroupEvent[]);
	const second = deepFreeze([
		split('b', 'a', 2),
		{ kind: 'count', unit: 'm', count: 1 },
		spawn('b', 'm', ['c', 2]),
		merge('d', 'a', 'c')
	] satisfies GroupEvent[]);
	const earlier = groupKinship(first);
	const before = structuredClone(earlier);
	const grown = groupKinship(second, earlier);
	expect(earlier).toEqual(before);
	expect(grown).toEqual(groupKinship([...first, ...second]));
	expect(grown.between[0]).toBe(earlier.between[0]);
});
