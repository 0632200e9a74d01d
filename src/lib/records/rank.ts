/**
 * Where an entry stands in the club's history (SPEC R10 to R14).
 *
 * A plain rank is a time and an id: the earlier of the id's time and the server's stamp, then the id. A correction
 * whose own rank is lower than what it corrects stands directly behind it; the depth counts corrections of
 * corrections, so that ranks stay short however long a chain grows. Ranks are never changed, only replaced.
 */
import type { EntryId } from './entry.ts';

export interface Rank {
	/** ms since 1970. */
	readonly time: number;
	readonly id: EntryId;
	/** The plain rank that it stands directly behind; null for a plain one. */
	readonly behind: Rank | null;
	/** 0 for a plain rank. */
	readonly depth: number;
}

const dash = 45;

/** Milliseconds since 1970 in the id, or null for an id that is no UUID version 7 in lower case. */
export function idTime(id: string): number | null {
	// Version and variant of RFC 9562. Read by hand: it is asked of every entry, and a pattern takes three times as long.
	if (id.length !== 36 || id.charCodeAt(14) !== 55 || (hexDigit(id.charCodeAt(19)) & 12) !== 8) return null;
	let time = 0;
	for (let at = 0; at < 36; at++) {
		const code = id.charCodeAt(at);
		if (at === 8 || at === 13 || at === 18 || at === 23) {
			if (code !== dash) return null;
			continue;
		}
		const digit = hexDigit(code);
		if (digit < 0) return null;
		// The first twelve digits are the time.
		if (at < 13) time = time * 16 + digit;
	}
	return time;
}

function hexDigit(code: number): number {
	if (code >= 48 && code <= 57) return code - 48;
	return code >= 97 && code <= 102 ? code - 87 : -1;
}

/**
 * The rank that an entry has by itself.
 *
 * @param time the earlier of the id's time and the stamp's, ms since 1970
 */
export function ownRank(time: number, id: EntryId): Rank {
	return { time, id, behind: null, depth: 0 };
}

/** The rank of a correction: its own, or directly behind the highest of what it corrects. */
export function correctionRank(own: Rank, highestCorrected: Rank): Rank {
	if (compareRanks(own, highestCorrected) > 0) return own;
	const behind = highestCorrected.behind ?? highestCorrected;
	return { time: own.time, id: own.id, behind, depth: highestCorrected.depth + 1 };
}

/** Below 0 when the first rank is lower, above 0 when it is higher, 0 when they are one. */
export function compareRanks(a: Rank, b: Rank): number {
	if (a === b) return 0;
	if (a.depth === 0 && b.depth === 0) return comparePlain(a, b);
	return comparePlain(a.behind ?? a, b.behind ?? b) || a.depth - b.depth || comparePlain(a, b);
}

function comparePlain(a: Rank, b: Rank): number {
	if (a.time !== b.time) return a.time - b.time;
	return a.id === b.id ? 0 : a.id < b.id ? -1 : 1;
}

const timeDigits = 10;
const depthDigits = 4;

/** A rank as text; texts compare as their ranks do. */
export function rankText(rank: Rank): string {
	const own = rank.time.toString(36).padStart(timeDigits, '0') + rank.id;
	if (!rank.behind) return own;
	return `${rankText(rank.behind)}~${rank.depth.toString(36).padStart(depthDigits, '0')}~${own}`;
}
