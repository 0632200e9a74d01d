import type { ThingRef } from '#records/kind.ts';
import type { VerdictName } from '#records/state.ts';
import type { BagNeed } from '../bags/needsOfBag.ts';
import type { ExchangeRow } from '../exchanges/exchangeRow.ts';

/** What waits for a person, and why; the words for screens stand with the screens. */
export type NeedWhat =
	| { readonly sort: 'exchange'; readonly code: Exclude<ExchangeRow['waitsForMe'], ''> }
	| { readonly sort: 'bag'; readonly code: BagNeed }
	/** Somebody with no part in it said something of my rooms: one tap of mine makes it count. */
	| { readonly sort: 'confirm' }
	/** `decide`: mine to decide; `look`: it concerns my rooms, somebody else decides. */
	| { readonly sort: 'doubt'; readonly code: 'decide' | 'look'; readonly reason: string; readonly by: string }
	| { readonly sort: 'two versions' }
	/** My own words do not count. */
	| { readonly sort: 'own'; readonly code: Exclude<VerdictName, 'counts'>; readonly why: string };

export type Need = NeedWhat & {
	/** The same for the same need, for lists. */
	readonly key: string;
	/** What it is about, in words. */
	readonly title: string;
	/** Who said it; '' = nobody in particular. */
	readonly who: string;
	/** Where one does something about it. */
	readonly thing: ThingRef;
	/** Last time anything was said, ms since 1970. */
	readonly at: number;
};
