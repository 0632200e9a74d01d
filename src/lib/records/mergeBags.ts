/** One bag out of the single bags that stand for it. */
import { blank } from './blank.ts';
import type { EntryId } from './entry.ts';
import type { Bag } from './state.ts';

/** @param parts each id's own bag, in the order of their ids */
export function mergeBags(parts: readonly Bag[], rankOf: (entry: EntryId) => string): Bag {
	const ids = parts.map((part) => part.id);
	const last = <Word extends { entry: EntryId }>(words: readonly (Word | null)[]): Word | null =>
		words.reduce(
			(best, word) => (word && (!best || rankOf(word.entry) > rankOf(best.entry)) ? word : best),
			null
		);
	const inOrder = <Word extends { entry: EntryId }>(words: Word[]): Word[] =>
		words.sort((a, b) => (rankOf(a.entry) < rankOf(b.entry) ? -1 : 1));
	return {
		...blank.bag(ids[0] ?? ''),
		ids,
		known: parts.some((part) => part.known),
		entries: [...new Set(parts.flatMap((part) => part.entries))].sort((a, b) =>
			rankOf(a) < rankOf(b) ? -1 : 1
		),
		leftOut: [...new Set(parts.flatMap((part) => part.leftOut))],
		disputes: parts.flatMap((part) => part.disputes),
		twoVersions: parts.flatMap((part) => part.twoVersions),
		meeting: parts.map((part) => part.meeting).find(Boolean) ?? null,
		exchange: parts.map((part) => part.exchange).find(Boolean) ?? null,
		statements: parts.flatMap((part) => part.statements),
		arrivals: parts.flatMap((part) => part.arrivals),
		handOvers: inOrder(parts.flatMap((part) => part.handOvers)),
		dayCounts: inOrder(parts.flatMap((part) => part.dayCounts)),
		givenBack: last(parts.map((part) => part.givenBack)),
		failed: last(parts.map((part) => part.failed)),
		settled: last(parts.map((part) => part.settled))
	};
}
