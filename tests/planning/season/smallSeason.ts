/** Small seeded seasons in which every sort of limit and wish occurs: invented, for tests alone. */
import { chanceFrom } from '#planning/chance.ts';
import { seasonBags } from '#planning/season/possibleBags.ts';
import type {
	Range,
	SeasonHolding,
	SeasonProblem,
	SeasonSource,
	SeasonWish
} from '#planning/season/season.ts';

/** Kinships of groups that go back to a few founders: averages of a true kinship matrix, so no eigenvalue is negative. */
function kinships(count: number, chance: ReturnType<typeof chanceFrom>): number[][] {
	const founders = 2 + chance.below(4);
	const parts = Array.from({ length: count }, () => {
		const weights = Array.from({ length: founders }, () => 0.05 + chance.below(1000) / 1000);
		const all = weights.reduce((sum, weight) => sum + weight, 0);
		return weights.map((weight) => weight / all);
	});
	return parts.map((one, i) =>
		parts.map((other, j) => {
			const shared = one.reduce((sum, part, f) => sum + part * other[f]!, 0) / 2;
			return i === j ? shared + 0.05 : shared;
		})
	);
}

export function smallSeason(seed: number, largest = 11): SeasonProblem {
	for (let tries = 0; ; tries++) {
		const problem = draw(seed * 1_000 + tries);
		const bags = seasonBags(problem).length;
		if (bags > 1 && bags <= largest) return problem;
	}
}

function draw(seed: number): SeasonProblem {
	const chance = chanceFrom(seed);
	const sometimes = (share: number) => chance.below(100) < share;
	const each = <T>(count: number, make: (i: number) => T) => Array.from({ length: count }, (_, i) => make(i));
	const roomCount = 2 + chance.below(4);
	const lineCount = 1 + chance.below(2);
	const rooms = each(roomCount, (i) => ({
		id: `room ${i}`,
		bagsOut: chance.below(4),
		bagsIn: chance.below(4),
		tanksFree: chance.below(4),
		isClosed: sometimes(12),
		balance: chance.below(5) - 2
	}));
	const places = each(lineCount, (line) => each(roomCount, (room) => ({ line, room }))).flat();
	const held = places.filter(() => sometimes(70));
	const homes = held.filter(() => sometimes(75));
	const sourceHomes = homes.length > 0 ? homes : held.slice(0, 1);
	const range = (expected: number): Range => ({
		expected,
		least: Math.max(0, expected - (sometimes(50) ? chance.below(10) / 100 : 0)),
		greatest: Math.min(1, expected + (sometimes(50) ? chance.below(15) / 100 : 0))
	});
	const tables = each(lineCount, (line) =>
		kinships(
			held.filter((one) => one.line === line).length + sourceHomes.filter((one) => one.line === line).length,
			chance
		)
	);
	const isNew = held.map((_, h) => sometimes(20) && !sourceHomes.includes(held[h]!));
	const within = (line: number, i: number, j: number) => tables[line]![i]![j]!;
	const heldOf = (line: number) => held.flatMap((one, h) => (one.line === line ? [h] : []));
	const sourcesOf = (line: number) => sourceHomes.flatMap((one, s) => (one.line === line ? [s] : []));
	const placeOfHolding = (h: number) => heldOf(held[h]!.line).indexOf(h);
	const placeOfSource = (s: number) =>
		heldOf(sourceHomes[s]!.line).length + sourcesOf(sourceHomes[s]!.line).indexOf(s);
	const holdings: SeasonHolding[] = held.map(({ line, room }, h) => ({
		...{ line, room, waiting: isNew[h] ? chance.below(3) : -1 },
		males: isNew[h] ? 0 : 1 + chance.below(4),
		females: isNew[h] ? 0 : 1 + chance.below(4),
		within: range(isNew[h] ? 0 : within(line, placeOfHolding(h), placeOfHolding(h)) * 0.9)
	}));
	for (const [h, holding] of holdings.entries())
		if (holding.males === 0) {
			const table = tables[holding.line]!;
			const at = placeOfHolding(h);
			for (let i = 0; i < table.length; i++) table[at]![i] = table[i]![at] = 0;
		}
	const sources: SeasonSource[] = sourceHomes.map(({ line, room }, s) => ({
		...{ id: `group ${s}`, line, room },
		spare: { males: chance.below(3), females: chance.below(3), unsexed: sometimes(15) ? 4 : 0 },
		within: range(within(line, placeOfSource(s), placeOfSource(s))),
		withFemales: held.map((one, h) =>
			one.line === line ? range(within(line, placeOfSource(s), placeOfHolding(h))) : null
		),
		withMales: held.map((one, h) =>
			one.line === line ? range(within(line, placeOfSource(s), placeOfHolding(h))) : null
		),
		withSources: sourceHomes.map((one, t) =>
			one.line === line ? range(within(line, placeOfSource(s), placeOfSource(t))) : null
		),
		cameFrom: sometimes(30) ? chance.below(roomCount) : -1
	}));
	const tripCost = each(roomCount, () => each(roomCount, () => 0));
	for (let i = 0; i < roomCount; i++)
		for (let j = 0; j < i; j++) tripCost[i]![j] = tripCost[j]![i] = [0, 1, 2, 5][chance.below(4)]!;
	const lines = each(lineCount, (line) => ({
		id: `line ${line}`,
		holders: chance.below(4),
		wantedHolders: chance.below(5),
		kinship: tables[line]!
	}));
	const weights = {
		lambda: [0, 0.05, 0.1, 1][chance.below(4)]!,
		worstCase: [0, 0.5, 1][chance.below(3)]!,
		trip: [0, 0.003, 0.02][chance.below(3)]!,
		bag: [0, 0.002][chance.below(2)]!,
		holder: [0, 0.5][chance.below(2)]!,
		waiting: [0, 0.3][chance.below(2)]!,
		closeMates: [0, 0.05][chance.below(2)]!,
		sendBack: [0, 0.01][chance.below(2)]!
	};
	const problem: SeasonProblem = {
		...{ rooms, lines, holdings, sources, tripCost, weights },
		apart: roomCount > 2 && sometimes(25) ? [[0, 1]] : [],
		outcrosses: lineCount > 1 && sometimes(15) ? [[0, 1]] : [],
		banned: [],
		wishes: [],
		tooClose: sometimes(60) ? 0.25 : 1,
		bagOfOneSex: 1 + chance.below(2),
		bagOfUnsexed: 4,
		foundingBag: { males: 1, females: 1 + chance.below(2), unsexed: 4 }
	};
	const bags = seasonBags(problem);
	if (bags.length === 0) return problem;
	const key = () => bags[chance.below(bags.length)]!.key;
	const banned = sometimes(20) ? [key()] : [];
	const wishes: SeasonWish[] = [
		...(sometimes(30) ? [{ id: 'holders', wish: 'holders' as const, line: 0, least: chance.below(5) }] : []),
		...(sometimes(30)
			? [{ id: 'blood', wish: 'newBlood' as const, holding: chance.below(holdings.length) }]
			: []),
		...(sometimes(30) ? [{ id: 'this bag', wish: 'bag' as const, key: key() }] : []),
		...(sometimes(30) ? [{ id: 'that bag', wish: 'bag' as const, key: key() }] : []),
		...(sometimes(30) ? [{ id: 'trips', wish: 'trips' as const, most: chance.below(3) }] : []),
		...(sometimes(30) ? [{ id: 'bags', wish: 'bags' as const, most: chance.below(4) }] : []),
		...(sometimes(30) ? [{ id: 'fair', wish: 'fair' as const, most: 1 }] : [])
	];
	return { ...problem, banned, wishes };
}
