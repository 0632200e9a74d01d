/**
 * Which ids stand for one bag (SPEC R50 to R53). What a person said (joined, parted) comes first. Otherwise bags with
 * one number are one bag when every two of them can be; if not, none are joined: "two bags with one number?"
 */
import type { ThingId } from './entry.ts';
import type { Bag, BagTo } from './state.ts';

export interface PairWord {
	readonly a: ThingId;
	readonly b: ThingId;
	readonly one: boolean;
}

export interface BagCluster {
	/** Sorted; the first is the bag's own id. */
	readonly ids: readonly ThingId[];
	readonly clash: readonly ThingId[];
}

/**
 * @param bags each id by itself, merged from its own statements
 * @param words what persons said of pairs: for each pair only the latest
 */
export function bagClusters(bags: readonly Bag[], words: readonly PairWord[]): BagCluster[] {
	const root = new Map<ThingId, ThingId>(bags.map((bag) => [bag.id, bag.id]));
	const find = (id: ThingId): ThingId => {
		const up = root.get(id) ?? id;
		return up === id ? id : find(up);
	};
	const join = (a: ThingId, b: ThingId) => {
		const [first, second] = [find(a), find(b)].sort();
		if (first !== undefined && second !== undefined) root.set(second, first);
	};
	const spoken = new Set<ThingId>();
	for (const word of words) {
		spoken.add(word.a).add(word.b);
		if (word.one && root.has(word.a) && root.has(word.b)) join(word.a, word.b);
	}
	const clash = new Map<ThingId, ThingId[]>();
	for (const same of byNumber(bags)) {
		const open = same.filter((bag) => !spoken.has(bag.id));
		if (same.length < 2 || open.length === 0) continue;
		if (everyTwo(same, canBeOne)) for (const bag of same) join(same[0]?.id ?? bag.id, bag.id);
		else
			for (const bag of same)
				clash.set(
					bag.id,
					same.filter((other) => other !== bag).map((other) => other.id)
				);
	}
	const clusters = new Map<ThingId, ThingId[]>();
	for (const bag of bags) clusters.set(find(bag.id), [...(clusters.get(find(bag.id)) ?? []), bag.id]);
	return [...clusters.values()].map((ids) => ({
		ids: ids.sort(),
		clash: [...new Set(ids.flatMap((id) => clash.get(id) ?? []))].filter((id) => !ids.includes(id)).sort()
	}));
}

function byNumber(bags: readonly Bag[]): Bag[][] {
	const groups = new Map<string, Bag[]>();
	for (const bag of bags) if (bag.number) groups.set(bag.number, [...(groups.get(bag.number) ?? []), bag]);
	return [...groups.values()];
}

function everyTwo(bags: readonly Bag[], can: (a: Bag, b: Bag) => boolean): boolean {
	return bags.every((a, i) => bags.slice(i + 1).every((b) => can(a, b)));
}

/** Same line or unknown, one giver, one receiver. */
function canBeOne(a: Bag, b: Bag): boolean {
	const lines = a.line === null || b.line === null || a.line === b.line;
	const givers = a.fromRoom === null || b.fromRoom === null || a.fromRoom === b.fromRoom;
	return lines && givers && sameReceiver(a, b);
}

function sameReceiver(a: Bag, b: Bag): boolean {
	const toA = receiver(a);
	const toB = receiver(b);
	return toA === '' || toB === '' || toA === toB;
}

function receiver(bag: Bag): string {
	const arrived = bag.arrivals[0];
	return arrived ? `room ${arrived.room}` : receiverWord(bag.to);
}

function receiverWord(to: BagTo | null): string {
	if (to === null || to.to === 'open') return '';
	return to.to === 'room' ? `room ${to.room}` : `${to.to} ${to.name}`;
}
