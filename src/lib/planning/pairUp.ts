import { assign } from './assign.ts';
import { kinshipOfSlots, type Breeders, type Broods } from './broods.ts';
import type { Chance } from './chance.ts';

/** Which of several equally good matchings comes out is chance, not a habit of the solver. Far below any kinship that counts. */
const tie = 1e-10;

/**
 * Which male each female breeds with, every male once.
 *
 * @returns for the j-th female of room r, at r x pairs + j: the male of her room, 0 to pairs - 1
 */
export function pairUp(
	how: 'random' | 'leastRelated' | 'leastRelatedInOrder',
	broods: Broods,
	breeders: Breeders,
	chance: Chance
): Int32Array {
	const { rooms, pairs } = broods;
	const mates = new Int32Array(rooms * pairs);
	for (let room = 0; room < rooms; room++) {
		const first = room * 2 * pairs;
		mates.set(
			how === 'random'
				? chance.order(pairs)
				: assign(
						pairs,
						(j, male) =>
							kinshipOfSlots(broods, breeders, first + pairs + j, first + male) +
							(how === 'leastRelated' ? chance.below(1000) * tie : 0)
					),
			room * pairs
		);
	}
	return mates;
}
