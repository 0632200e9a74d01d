/** Which of a member's entries a change of that member's rights can touch: the rest is left alone. */
import type { Shift } from './authority.ts';
import type { Item } from './item.ts';
import { momentOf, placesOf } from './rights.ts';

/** Whether the item may get another verdict. */
export function mayJudgeAnew({ from, onlyGives }: Shift, item: Item): boolean {
	if (onlyGives && item.verdict.name === 'counts') return false;
	// What speaks of another entry is judged where that one stands.
	if (from === null || item.corrects.length > 0 || item.speaksOf.length > 0) return true;
	return item.kind?.nature === 'decision' ? (item.stamp?.n ?? 0) > from.n : momentOf(item).time >= from.time;
}

/** Whether the item may be told from another side, because its writer keeps the room or no longer does. */
export function mayTellAnew({ from, room }: Shift, item: Item): boolean {
	if (room === null || !item.kind?.asksWhoKeeps || item.problem !== '') return false;
	if (from !== null && momentOf(item).time < from.time) return false;
	const named = item.kind.rooms?.(item.body) ?? [];
	return named.includes(room) || placesOf(item).some(([, place]) => place === room);
}
