/** What a projection is told of each room, as plain data. */
import type { UnitId } from '../groups/event.ts';

export interface RoomAhead {
	readonly room: string;
	/** The fish there now that will breed; the same units on both sides where nobody tells the sexes apart. */
	readonly males: readonly UnitId[];
	readonly females: readonly UnitId[];
	/** Effective number of fathers in each generation, 1 or more, and of mothers; need not be whole. */
	readonly fathers: number;
	readonly mothers: number;
}

/** In every generation so many young males of one room take the place of as many of another's. */
export interface MoveAhead {
	readonly from: string;
	readonly to: string;
	readonly males: number;
}

/** Fish of one sex that a room keeps in each generation: enough whole fish for the breeders. */
export function kept(breeders: number): number {
	return Math.max(1, Math.ceil(breeders - 1e-9));
}
