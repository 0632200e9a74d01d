/** Where an entry that counts puts its things: in which rooms, lines and meetings (SPEC R23). */
import type { Dossier } from './dossier.ts';
import type { ThingId } from './entry.ts';
import type { Item } from './item.ts';
import { firstRank, withPlacing } from './placings.ts';
import { compareRanks, type Rank } from './rank.ts';
import { placesOf } from './rights.ts';

const none: readonly Dossier<Item>[] = [];

/**
 * Puts an item's holdings in or takes them out; returns the things for which somebody else may have a part now. Lines
 * themselves are not placed: a line's keepers speak for their own fish only.
 *
 * @param rank where the item stands; null = takes its holdings out
 */
export function placeThings(item: Item, rank: Rank | null): readonly Dossier<Item>[] {
	const places = placesOf(item);
	const meeting = item.problem === '' ? item.kind?.meeting?.(item.body) : null;
	if (places.length === 0 && !meeting) return none;
	const changed: Dossier<Item>[] = [];
	// A thing that an entry places belongs to the line that the entry names.
	const line = places.length > 0 ? item.kind?.line?.(item.body) : null;
	for (const { type, id, dossier } of item.things) {
		if (type === 'line') continue;
		let isChanged = false;
		for (const place of places) {
			if (place[0] !== id) continue;
			if (placeOne(dossier, 'rooms', item, place[1], rank)) isChanged = true;
			if (line && placeOne(dossier, 'lines', item, line, rank)) isChanged = true;
		}
		// A bag belongs to the meeting that it was logged at.
		if (meeting && type === 'bag' && placeOne(dossier, 'meetings', item, meeting, rank)) isChanged = true;
		if (isChanged) changed.push(dossier);
	}
	return changed;
}

/** Says whether the first rank for that place changed. */
function placeOne(
	dossier: Dossier<Item>,
	which: 'rooms' | 'lines' | 'meetings',
	item: Item,
	at: ThingId,
	rank: Rank | null
): boolean {
	const before = dossier[which];
	const after = withPlacing(before, item, at, rank);
	dossier[which] = after;
	const [first, firstNow] = [firstRank(before, at), firstRank(after, at)];
	return first && firstNow ? compareRanks(first, firstNow) !== 0 : first !== firstNow;
}
