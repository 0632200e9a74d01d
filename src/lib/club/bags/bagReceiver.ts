import type { ThingId } from '#records/entry.ts';
import type { Bag } from '#records/state.ts';

/** The room that has or should get the bag; null for guests, people outside the club, and bags still open. */
export function bagReceiver(bag: Bag): ThingId | null {
	return bag.arrivals.at(-1)?.room ?? (bag.to?.to === 'room' ? bag.to.room : null);
}
