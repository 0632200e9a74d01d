/** Blocks of bag numbers given to this device: plain data and what can be asked of it. */
import { bagNumberOf } from './bagNumberOf.ts';

/** Numbers `first` to `last`, given to one device and never given again in this club. */
export interface NumberBlock {
	readonly first: number;
	readonly last: number;
}

export interface HeldNumbers {
	/** In the order in which they came. */
	readonly blocks: readonly (NumberBlock & { readonly next: number })[];
}

export const noNumbers: HeldNumbers = { blocks: [] };

/** So many untouched blocks are kept for days without signal, beside the one in use. */
export const spareBlocksWanted = 2;

/** Adds blocks; one that is here already is left as it is, so that an answer that came twice changes nothing. */
export function withBlocks(held: HeldNumbers, given: readonly NumberBlock[]): HeldNumbers {
	const blocks = [...held.blocks];
	for (const { first, last } of given)
		if (!blocks.some((block) => block.first === first)) blocks.push({ first, last, next: first });
	return { blocks };
}

/** The next number that nobody has used, and what is held after it; null when there is none. */
export function takeNumber(
	held: HeldNumbers
): { readonly number: string; readonly held: HeldNumbers } | null {
	const place = held.blocks.findIndex((block) => block.next <= block.last);
	const block = held.blocks[place];
	if (!block) return null;
	return { number: bagNumberOf(block.next), held: withNext(held, place, block.next + 1) };
}

/** A label with this number was used: never hand it out again. Numbers of other devices change nothing. */
export function withUsed(held: HeldNumbers, count: number): HeldNumbers {
	const place = held.blocks.findIndex(({ first, last }) => count >= first && count <= last);
	const block = held.blocks[place];
	// Labels are printed from the front and may be used in any order: everything up to the highest is spent.
	return block && count >= block.next ? withNext(held, place, count + 1) : held;
}

function withNext(held: HeldNumbers, place: number, next: number): HeldNumbers {
	return { blocks: held.blocks.map((block, i) => (i === place ? { ...block, next } : block)) };
}

export function numbersLeft(held: HeldNumbers): number {
	return held.blocks.reduce((sum, { next, last }) => sum + Math.max(0, last - next + 1), 0);
}

/** Blocks to ask for now, so that the one in use has two untouched ones behind it. */
export function blocksWanted(held: HeldNumbers): number {
	const untouched = held.blocks.filter(({ first, next }) => next === first).length;
	const inUse = held.blocks.some(({ first, next, last }) => next > first && next <= last);
	return Math.max(0, spareBlocksWanted + (inUse ? 0 : 1) - untouched);
}
