import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bagClusters, type PairWord } from '#records/bagNumbers.ts';
import { blank } from '#records/blank.ts';
import { countNow } from '#records/countNow.ts';
import { Fold } from '#records/fold.ts';
import { compareRanks, correctionRank, ownRank, rankText, type Rank } from '#records/rank.ts';
import type { Bag, CountChange, CountStatement } from '#records/state.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { randomHistory, shuffled, uuid7 } from '#tests/helpers/randomHistory.ts';

const seed = 1922;
const name = (rule: string) => `${rule} (seed ${seed})`;
const history = fc.record({
	seed: fc.nat(1e6),
	size: fc.integer({ min: 30, max: 110 }),
	tangle: fc.constantFrom(0.05, 0.3, 0.6)
});

function foldOf(inputs: Parameters<Fold['add']>[0]): Fold {
	const fold = new Fold();
	fold.add(inputs);
	return fold;
}

describe('over random histories of every kind', () => {
	it(name('[R1] [R2] any order, any parts, stamps apart, all twice: one state'), () => {
		fc.assert(
			fc.property(history, fc.nat(1e6), fc.integer({ min: 1, max: 20 }), (of, order, part) => {
				const { inputs } = randomHistory(of.seed, of.size, of.tangle);
				const apart = inputs.flatMap((input) => [
					{ entry: input.entry },
					...(input.stamp ? [{ stamp: input.stamp }] : [])
				]);
				const fold = new Fold();
				const mixed = shuffled([...apart, ...inputs], order);
				for (let i = 0; i < mixed.length; i += part) fold.add(mixed.slice(i, i + part));
				expect(foldPicture(fold)).toEqual(foldPicture(foldOf(inputs)));
			}),
			{ seed, numRuns: 25 }
		);
	});

	it(name('[R3] saved at any moment, restored, the rest added: one state'), () => {
		fc.assert(
			fc.property(history, fc.nat(1e6), fc.double({ min: 0, max: 1, noNaN: true }), (of, order, share) => {
				const { inputs } = randomHistory(of.seed, of.size, of.tangle);
				const mixed = shuffled(inputs, order);
				const cut = Math.floor(mixed.length * share);
				const restored = Fold.restore(structuredClone(foldOf(mixed.slice(0, cut)).save()));
				restored?.add(mixed.slice(cut));
				expect(restored && foldPicture(restored)).toEqual(foldPicture(foldOf(inputs)));
			}),
			{ seed, numRuns: 25 }
		);
	});

	it(name('[R4] any unshared entries taken out, and put in again: as if nothing had been'), () => {
		fc.assert(
			fc.property(history, fc.nat(1e6), (of, order) => {
				const { inputs } = randomHistory(of.seed, of.size, of.tangle);
				const unshared = inputs.flatMap(({ entry, stamp }) => (entry && !stamp ? [entry] : []));
				const gone = new Set(shuffled(unshared, order).slice(0, 12));
				const fold = foldOf(inputs);
				for (const entry of gone) fold.remove(entry.id);
				const rest = inputs.filter(({ entry }) => !entry || !gone.has(entry));
				expect(foldPicture(fold)).toEqual(foldPicture(foldOf(rest)));
				for (const entry of gone) fold.add([{ entry }]);
				expect(foldPicture(fold)).toEqual(foldPicture(foldOf(inputs)));
			}),
			{ seed, numRuns: 25 }
		);
	});

	it(name('[R20] an entry has one verdict, and only one that counts has nothing to explain'), () => {
		fc.assert(
			fc.property(history, (of) => {
				const { inputs } = randomHistory(of.seed, of.size, of.tangle);
				const fold = foldOf(inputs);
				for (const id of fold.ids()) {
					const verdict = fold.view(id)?.verdict;
					expect(verdict?.why === '').toBe(verdict?.name === 'counts');
				}
			}),
			{ seed, numRuns: 25 }
		);
	});
});

describe('ranks', () => {
	const time = fc.integer({ min: 0, max: 4e12 });
	const own = fc.tuple(time, fc.nat(1e9)).map(([at, i]) => ownRank(at, uuid7(at, i)));

	it(name('[R10] ranks order as time and id do'), () => {
		fc.assert(
			fc.property(time, time, fc.nat(1e9), fc.nat(1e9), (a, b, i, j) => {
				const earlier = a < b || (a === b && uuid7(a, i) < uuid7(b, j));
				const [one, other] = [ownRank(a, uuid7(a, i)), ownRank(b, uuid7(b, j))];
				expect(compareRanks(one, other) < 0).toBe(earlier);
				expect(rankText(one) < rankText(other)).toBe(earlier);
			}),
			{ seed, numRuns: 500 }
		);
	});

	it(name('[R12] a correction stands after what it corrects and before whatever came later'), () => {
		fc.assert(
			fc.property(fc.uniqueArray(own, { minLength: 3, maxLength: 3 }), (ranks) => {
				const [first, target, later] = ranks.toSorted(compareRanks) as [Rank, Rank, Rank];
				const behind = correctionRank(first, target);
				const chained = correctionRank(first, behind);
				const asTheyStand = [target, behind, chained, later];
				expect(asTheyStand.toSorted(compareRanks)).toEqual(asTheyStand);
				const texts = asTheyStand.map(rankText);
				expect(texts.toSorted()).toEqual(texts);
				expect(correctionRank(later, target)).toBe(later);
			}),
			{ seed, numRuns: 500 }
		);
	});
});

describe('counts', () => {
	const fish = fc.record({ males: fc.nat(9), females: fc.nat(9), unsexed: fc.nat(9) });
	const when = fc
		.tuple(fc.nat(50), fc.nat(20))
		.map(([first, length]) => ({ first, last: first + length, text: '' }));
	const said = (entry: string) => ({ entry, by: 'm', toldBy: null });
	const counts = fc.array(fc.tuple(fish, when), { maxLength: 6 });
	const changes = fc.array(fc.tuple(fish, when, fc.boolean()), { maxLength: 8 });

	it(
		name(
			'[R40] [R41] [R42] [R43] never below 0; each change is added, in the count, or not clear; order of changes is nothing'
		),
		() => {
			fc.assert(
				fc.property(counts, changes, fc.nat(1e6), (counted, changed, order) => {
					const statements = counted.map(([fish, when], i): CountStatement => ({
						...said(`c${i}`),
						fish,
						when,
						certainty: 'counted'
					}));
					const told = changed.map(([fish, when, more], i): CountChange => {
						const less = { males: -fish.males, females: -fish.females, unsexed: -fish.unsexed };
						return {
							...said(`x${i}`),
							fish: more ? fish : less,
							when,
							why: more ? 'added' : 'died',
							cause: '',
							bag: null,
							other: null
						};
					});
					const now = countNow(statements, told);
					expect(Math.min(now.fish.males, now.fish.females, now.fish.unsexed)).toBeGreaterThanOrEqual(0);
					const latest = Math.max(...statements.map((one) => one.when.last));
					for (const one of told) {
						const isAfter = statements.length === 0 || one.when.first > latest;
						expect(now.added.includes(one.entry)).toBe(isAfter);
						if (isAfter) expect(now.orderNotClear).not.toContain(one.entry);
					}
					const mixed = countNow(statements, shuffled(told, order));
					expect(mixed.fish).toEqual(now.fish);
					expect(mixed.belowZero).toBe(now.belowZero);
				}),
				{ seed, numRuns: 500 }
			);
		}
	);
});

describe('bags', () => {
	const bag = fc.record({
		number: fc.constantFrom('', '0417K', '0418A'),
		line: fc.constantFrom(null, 'lA', 'lB'),
		fromRoom: fc.constantFrom(null, 'r1', 'r2'),
		to: fc.constantFrom(
			null,
			{ to: 'open' as const },
			{ to: 'room' as const, room: 'r3' },
			{ to: 'guest' as const, name: 'Ann' }
		)
	});
	const word = fc.record({ a: fc.nat(5), b: fc.nat(5), one: fc.boolean() });

	it(
		name('[R50] [R51] [R52] each id in one bag; parted stay apart; number joins only what can be one'),
		() => {
			fc.assert(
				fc.property(
					fc.array(bag, { minLength: 1, maxLength: 6 }),
					fc.array(word, { maxLength: 3 }),
					fc.nat(1e6),
					(told, spoken, order) => {
						const bags = told.map((one, i): Bag => ({ ...blank.bag(`b${i}`), ...one }));
						const byPair = new Map<string, PairWord>();
						for (const { a, b, one } of spoken) {
							if (a < b) byPair.set(`${a} ${b}`, { a: `b${a}`, b: `b${b}`, one });
						}
						const words = [...byPair.values()];
						const clusters = bagClusters(bags, words);
						expect(clusters.flatMap((cluster) => cluster.ids).toSorted()).toEqual(
							bags.map((one) => one.id).toSorted()
						);
						expect(new Set(bagClusters(shuffled(bags, order), shuffled(words, order)))).toEqual(
							new Set(clusters)
						);
						const clusterOf = (id: string) => clusters.find((cluster) => cluster.ids.includes(id));
						for (const { a, b, one } of words) {
							if (!clusterOf(a) || !clusterOf(b)) continue;
							if (one) expect(clusterOf(a)).toBe(clusterOf(b));
							else if (words.every((other) => !other.one)) expect(clusterOf(a)).not.toBe(clusterOf(b));
						}
						if (words.length > 0) return;
						for (const { ids } of clusters) {
							const together = bags.filter((one) => ids.includes(one.id));
							expect(new Set(together.map((one) => one.number)).size).toBe(1);
							expect(new Set(together.map((one) => one.line).filter(Boolean)).size).toBeLessThan(2);
							expect(new Set(together.map((one) => one.fromRoom).filter(Boolean)).size).toBeLessThan(2);
						}
					}
				),
				{ seed, numRuns: 500 }
			);
		}
	);
});
