/** Broods, donors and pairs chosen together, in rooms as they are: beside a study, the `strategies` command and the rule. */
import { describe, expect, test } from 'vitest';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { bestMates } from '#planning/ahead/bestMates.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import type { LineToCome, StrategyAhead } from '#planning/ahead/strategyAhead.ts';
import { simulateExchange } from '#planning/simulateExchange.ts';

const plan: StrategyAhead = { exchange: 'leastRelated', breeders: 'together', malesMoved: 1, every: 1 };
const rule: StrategyAhead = { ...plan, breeders: 'even' };

/** Rooms of these sizes; fish of different rooms have this kinship, those of one room this much more. */
function rooms(sizes: readonly (readonly [number, number])[], between = 0, more = 0): LineToCome {
	const names = sizes.map((_, i) => `room ${i}`);
	const before: { unit: string; room: number }[] = [];
	const events = sizes.flatMap(([fathers, mothers], room) =>
		[`room ${room} m`, `room ${room} f`].map((unit, k) => {
			const related = before.map((other) => ({
				unit: other.unit,
				kinship: between + (other.room === room ? more : 0)
			}));
			before.push({ unit, room });
			return {
				...{ kind: 'founders' as const, unit, count: [fathers, mothers][k]! },
				...{ within: between + more, related }
			};
		})
	);
	return {
		table: groupKinship(events),
		rooms: names.map((room, i) => ({
			...{ room, house: room, takesPart: true, fathers: sizes[i]![0], mothers: sizes[i]![1] },
			...{ males: [`${room} m`], females: [`${room} f`] }
		})),
		losses: { lost: 0, refilled: 0 }
	};
}
const equal = (count: number, ofOneSex: number) =>
	rooms(Array.from({ length: count }, () => [ofOneSex, ofOneSex] as const));
const last = (line: LineToCome, strategy: StrategyAhead, futures: number, generations = 20) =>
	simulateAhead(line, [strategy], { generations, futures, seed: 17 })[0]!.at(-1)!;

describe('equal rooms of unrelated fish, twenty generations, seed 17', () => {
	// The aim: mean kinship of all + 0.1 x mean kinship of the pairs; that of the pairs that bred is inbreeding.
	// A study made for this project with another program, 100 replicates: inbreeding, diversity, standard error.
	test.each([
		[6, 8, 0.101, 0.8841, 0.0002],
		[8, 8, 0.082, 0.9121, 0.0002],
		[8, 4, 0.151, 0.8398, 0.0001]
	])('%i rooms of %i: as good as the study and as the other simulation', (count, size, F, GD, SE) => {
		const futures = 40;
		const { inbreeding, geneDiversity } = last(equal(count, size / 2), plan, futures);
		const ours = 1 - geneDiversity!.mean + 0.1 * inbreeding!.mean;
		const error = Math.hypot(geneDiversity!.standardError, 0.1 * inbreeding!.standardError);
		expect(ours).toBeLessThanOrEqual(
			1 - GD + 0.1 * F + 4 * Math.hypot(error, Math.hypot(0.0001, 0.1 * SE)) + 0.00005
		);
		const other = simulateExchange(
			{
				...{ rooms: count, breedersPerRoom: size, exchange: 'full', breeders: 'equalised' },
				...{ pairs: 'leastRelated', lambda: 0.1, bagEvery: 1 }
			},
			20,
			futures,
			17
		);
		const theirs = 1 - other.geneDiversity.at(-1)! + 0.1 * other.inbreeding.at(-1)!;
		const otherError = Math.hypot(other.geneDiversitySE.at(-1)!, 0.1 * other.inbreedingSE.at(-1)!);
		expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(4 * Math.hypot(error, otherError) + 0.00005);
	});
});

describe('rooms that are not equal: no worse than the rule, by more than chance', () => {
	test.each([
		[
			'a pair beside a crowd, all related',
			rooms(
				[
					[1, 1],
					[2, 3],
					[5, 8],
					[3, 2],
					[1, 4]
				],
				0.1,
				0.15
			)
		],
		[
			'more males than females',
			rooms(
				[
					[6, 2],
					[4, 4],
					[3, 1]
				],
				0.05,
				0.2
			)
		],
		[
			'one room stays out',
			(() => {
				const line = rooms(
					[
						[2, 2],
						[3, 3],
						[4, 4],
						[2, 5]
					],
					0.05,
					0.1
				);
				return { ...line, rooms: line.rooms.map((room, i) => ({ ...room, takesPart: i !== 1 })) };
			})()
		]
	])('%s, seed 17', (_, line) => {
		const [ours, rules] = [last(line, plan, 60, 10), last(line, rule, 200, 10)];
		const value = ({ inbreeding, geneDiversity }: typeof ours) =>
			1 - geneDiversity!.mean + 0.1 * inbreeding!.mean;
		const error = (of: typeof ours) =>
			Math.hypot(of.geneDiversity!.standardError, 0.1 * of.inbreeding!.standardError);
		expect(value(ours)).toBeLessThanOrEqual(value(rules) + 4 * Math.hypot(error(ours), error(rules)));
	});
});

test('where nothing moves, one pair a room is the full-sib series (Wright 1921; Falconer & Mackay 1996, from memory)', () => {
	const line = equal(2, 1);
	const course = simulateAhead(line, [{ ...plan, exchange: 'none' }], {
		generations: 5,
		futures: 1,
		seed: 1
	})[0]!;
	for (const [i, value] of [0, 0, 1 / 4, 3 / 8, 1 / 2, 19 / 32].entries())
		expect(course[i]!.inbreeding!.mean).toBeCloseTo(value, 12);
});

test('a ring of pairs leaves no choice: the same course by rule and chosen together', () => {
	const asked = { generations: 12, futures: 1, seed: 2 };
	const ring = { ...plan, exchange: 'ring' as const };
	const [one, other] = simulateAhead(equal(4, 1), [ring, { ...ring, breeders: 'random' }], asked);
	for (const [i, { inbreeding }] of one!.entries())
		expect(inbreeding!.mean).toBeCloseTo(other![i]!.inbreeding!.mean, 12);
});

test.each([plan, rule, { ...plan, exchange: 'ring', breeders: 'random' } as const])(
	'a room just filled again gives nothing: fish that were lost do not come back, seeds 1 to 100, %j',
	(strategy) => {
		// Two pairs. One lost and filled again: all four fish are young of the other pair, with kinship 1/2 with
		// themselves and 1/4 with each other. None lost: as without losses.
		const brothers = 1 - (1 / 2 + 3 / 4) / 4;
		const all = last(equal(2, 1), strategy, 1, 1).geneDiversity!.mean;
		const seen = new Set<number>();
		for (let seed = 1; seed <= 100; seed++) {
			const line = { ...equal(2, 1), losses: { lost: 0.3, refilled: 1 } };
			const [course] = simulateAhead(line, [strategy], { generations: 1, futures: 1, seed });
			const diversity = course![1]!.geneDiversity?.mean;
			if (diversity !== undefined) seen.add(diversity);
		}
		expect([...seen].toSorted()).toEqual([brothers, all].toSorted());
	}
);

describe('least related pairs of a room', () => {
	/** Every way to give each female a male, males used alike. */
	function best(males: number, females: number, kinship: (male: number, female: number) => number): number {
		const [least, most] = [Math.floor(females / males), Math.ceil(females / males)];
		const used = new Array<number>(males).fill(0);
		const go = (female: number): number => {
			if (female === females) return used.every((times) => times >= least) ? 0 : Infinity;
			let found = Infinity;
			for (let male = 0; male < males; male++) {
				if (used[male]! >= most) continue;
				used[male]!++;
				found = Math.min(found, kinship(male, female) + go(female + 1));
				used[male]!--;
			}
			return found;
		};
		return go(0);
	}

	test.each([
		[3, 3],
		[2, 5],
		[5, 2],
		[1, 4],
		[3, 4]
	])('%i males, %i females: the least of all ways, seeds 1 to 20', (males, females) => {
		for (let seed = 1; seed <= 20; seed++) {
			const random = randomFrom(seed);
			const table = Array.from({ length: males * females }, () => random());
			const kinship = (male: number, female: number) => table[male * females + female]!;
			const mates = bestMates(males, females, kinship);
			const sum = mates.reduce((all, male, female) => all + kinship(male, female), 0);
			expect(sum).toBeCloseTo(best(males, females, kinship), 12);
		}
	});
});
