/**
 * Where an entry stands in the club's history (SPEC R10 to R14). Ranks are strings that compare as they order.
 *
 * A plain rank is `<time><id>`: the earlier of the id's time and the server's stamp, then the id. A correction whose
 * own rank is lower than what it corrects stands directly after it: `<rank of the anchor>~<depth>~<own rank>`, where
 * the depth counts corrections of corrections, so that ranks stay short however long a chain grows.
 */
import type { EntryId } from './entry.ts';

const timeDigits = 10;

/** Milliseconds since 1970 in the id, or null for an id that is no UUID version 7. */
export function idTime(id: string): number | null {
	if (!/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(id)) return null;
	return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}

/**
 * The rank that an entry has by itself.
 *
 * @param time the earlier of the id's time and the stamp's, ms since 1970
 */
export function ownRank(time: number, id: EntryId): string {
	return time.toString(36).padStart(timeDigits, '0') + id;
}

/** The rank of a correction: its own, or directly after the highest of what it corrects. */
export function correctionRank(own: string, highestCorrected: string): string {
	if (own > highestCorrected) return own;
	const parts = highestCorrected.split('~');
	const depth = parts.length === 1 ? 1 : Number.parseInt(parts[1] ?? '0', 36) + 1;
	return `${parts[0]}~${depth.toString(36).padStart(4, '0')}~${own}`;
}
