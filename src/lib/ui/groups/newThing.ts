import { v7 } from 'uuid';
import type { ThingId } from '#records/entry.ts';

/** An id for a line, group or spawn told of for the first time: made on the device, so that it works offline. */
export function newThing(): ThingId {
	return v7();
}
