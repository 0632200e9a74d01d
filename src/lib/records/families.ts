/**
 * Entries that correct each other, directly or through others, taken together (SPEC R31 to R35): who stands, who was
 * taken back, which versions had not seen each other. One pass from the latest to the first: whatever tangle a
 * dishonest device writes, the work grows with the number of links and no faster.
 */
import type { Item } from './item.ts';
import { compareRanks } from './rank.ts';

/** Versions of one entry, none of which had seen the others; highest rank last. */
export interface Fork {
	/** The entries that all of them stand for. */
	readonly of: ReadonlySet<Item>;
	readonly ends: readonly Item[];
}

export interface Family {
	readonly members: readonly Item[];
	/** Item -> the corrections of it that count and were not taken back, lowest rank first. */
	readonly live: ReadonlyMap<Item, readonly Item[]>;
	readonly takenBack: ReadonlySet<Item>;
	readonly forks: readonly Fork[];
	/** Versions that stand back behind a later one. */
	readonly lesser: ReadonlySet<Item>;
}

const none: readonly Item[] = [];

/**
 * @param start any member
 * @param targets what an item corrects, where known
 * @param correctors what corrects an item
 */
export function familyOf(
	start: Item,
	targets: (item: Item) => readonly Item[],
	correctors: (item: Item) => readonly Item[]
): Family {
	const members = connected(start, targets, correctors).sort((a, b) => compareRanks(b.rank, a.rank));
	const live = new Map<Item, readonly Item[]>();
	const ends = new Map<Item, readonly Item[]>();
	const takenBack = new Set<Item>();
	for (const item of members) {
		// A correction stands higher than what it corrects, so every corrector was settled before.
		const standing = correctors(item)
			.filter((one) => one.verdict.name === 'counts' && !takenBack.has(one))
			.sort(byRank);
		live.set(item, standing.length ? standing : none);
		ends.set(item, endsOf(standing, live, ends));
		if (standing.some((one) => one.kind?.kind === 'word/withdrawn')) takenBack.add(item);
	}
	const forks = forksOf(ends);
	const lesser = new Set(forks.flatMap((fork) => fork.ends.slice(0, -1)));
	return { members, live, takenBack, forks, lesser };
}

function connected(
	start: Item,
	targets: (item: Item) => readonly Item[],
	correctors: (item: Item) => readonly Item[]
): Item[] {
	const found = new Set([start]);
	for (const item of found) {
		for (const one of targets(item)) found.add(one);
		for (const one of correctors(item)) found.add(one);
	}
	return [...found];
}

function endsOf(
	standing: readonly Item[],
	live: ReadonlyMap<Item, readonly Item[]>,
	ends: ReadonlyMap<Item, readonly Item[]>
): readonly Item[] {
	const first = standing[0];
	if (!first) return none;
	const beyond = (one: Item) => (live.get(one)?.length ? (ends.get(one) ?? none) : [one]);
	// A chain shares one list, so that its length costs nothing.
	if (standing.length === 1) return beyond(first);
	return [...new Set(standing.flatMap(beyond))].sort(byRank);
}

function forksOf(ends: ReadonlyMap<Item, readonly Item[]>): Fork[] {
	const forks = new Map<readonly Item[], Set<Item>>();
	for (const [item, versions] of ends) {
		if (versions.length < 2) continue;
		const of = forks.get(versions);
		if (of) of.add(item);
		else forks.set(versions, new Set([item]));
	}
	return [...forks].map(([versions, of]) => ({ of, ends: versions }));
}

function byRank(a: Item, b: Item): number {
	return compareRanks(a.rank, b.rank);
}
