import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { GroupEvent } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinship } from '#genetics/individuals/kinship.ts';
import { orderedPedigree } from '#genetics/individuals/orderedPedigree.ts';
import type { FishRecord } from '#genetics/individuals/pedigree.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { founders, kinshipTolerance, one, spawn } from './builders.ts';

const seed = 20;
/** Two numbers for each fish choose its parents among the fish before it; too high a number = not known. */
const pedigrees = fc.array(fc.tuple(fc.nat(40), fc.nat(40)), { minLength: 2, maxLength: 40 }).map((choices) =>
	choices.map(([m, f], i): FishRecord => {
		const mother = m < i ? `${m}` : null;
		return { id: `${i}`, mother, father: f < i && f !== m ? `${f}` : null };
	})
);

function eventsOf(fish: readonly FishRecord[]): GroupEvent[] {
	return fish.map(({ id, mother, father }) =>
		mother === null && father === null ? founders(id) : spawn(one([father, 1]), one([mother, 1]), [id, 1])
	);
}

test(`groups of one have the kinship of single fish (seed ${seed})`, () => {
	fc.assert(
		fc.property(pedigrees, (fish) => {
			const groups = groupKinship(eventsOf(fish));
			const pedigree = orderedPedigree(fish);
			const single = kinship(pedigree);
			const F = inbreeding(pedigree);
			const n = pedigree.ids.length;
			pedigree.ids.forEach((a, i) => {
				expectClose(inbreedingOf(groups, [a]), F[i]!, kinshipTolerance, `F of ${a}`);
				for (let j = 0; j < i; j++) {
					const b = pedigree.ids[j]!;
					expectClose(kinshipBetween(groups, [a], [b]), single[i * n + j]!, kinshipTolerance, `${a}, ${b}`);
				}
			});
		}),
		{ seed, numRuns: 100 }
	);
});

test(`kinship does not depend on the order of the records (seed ${seed})`, () => {
	fc.assert(
		fc.property(pedigrees, fc.infiniteStream(fc.nat(1000)), (fish, keys) => {
			const shuffled = fish
				.map((record) => ({ record, key: keys.next().value! }))
				.sort((a, b) => a.key - b.key)
				.map(({ record }) => record);
			const one = orderedPedigree(fish);
			const other = orderedPedigree(shuffled);
			const shuffledF = inbreeding(other);
			const F = new Map(other.ids.map((id, i) => [id, shuffledF[i]!]));
			const expected = inbreeding(one);
			one.ids.forEach((id, i) => expect(F.get(id)).toBe(expected[i]));
		}),
		{ seed, numRuns: 30 }
	);
});
