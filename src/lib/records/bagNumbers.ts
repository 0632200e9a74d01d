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
		let top = id;
		for (let up = root.get(top) ?? top; up !== top; up = root.get(top) ?? top) top = up;
		root.set(id, top);
		return top;
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
	const clashes: (readonly Bag[])[] = [];
	for (const same of byNumber(bags)) {
		if (same.length < 2 || same.every((bag) => spoken.has(bag.id))) continue;
		const here = new Set(same.map((bag) => bag.id));
		const areApart = ({ a, b, one }: PairWord) => !one && here.has(a) && here.has(b) && find(a) !== find(b);
		if (!words.some(areApart) && canBeOne(same)) for (const bag of same) join(same[0]?.id ?? bag.id, bag.id);
		else clashes.push(same);
	}
	const clusters = new Map<ThingId, { ids: ThingId[]; clash: Set<ThingId> }>();
	for (const { id } of bags) {
		const cluster = clusters.get(find(id));
		if (cluster) cluster.ids.push(id);
		else clusters.set(find(id), { ids: [id], clash: new Set() });
	}
	for (const same of clashes) {
		for (const stands of new Set(same.map((bag) => find(bag.id)))) {
			const clash = clusters.get(stands)?.clash;
			const others = same.filter((bag) => find(bag.id) !== stands);
			for (const other of others.slice(0, clashesNamed)) clash?.add(other.id);
		}
	}
	return [...clusters.values()].map(({ ids, clash }) => ({ ids: ids.sort(), clash: [...clash].sort() }));
}

/** Two are a slip of the pen, three a bad day; hundreds are one device gone wrong and need no full list each. */
const clashesNamed = 20;

function byNumber(bags: readonly Bag[]): Bag[][] {
	const groups = new Map<string, Bag[]>();
	for (const bag of bags) {
		if (!bag.number) continue;
		const group = groups.get(bag.number);
		if (group) group.push(bag);
		else groups.set(bag.number, [bag]);
	}
	return [...groups.values()];
}

/** One line, one giver, one receiver, each or not said: then every two of them can be one. */
function canBeOne(bags: readonly Bag[]): boolean {
	const atMostOne = (told: readonly string[]) => new Set(told.filter(Boolean)).size < 2;
	return (
		atMostOne(bags.map((bag) => bag.line ?? '')) &&
		atMostOne(bags.map((bag) => bag.fromRoom ?? '')) &&
		atMostOne(bags.map(receiver))
	);
}

function receiver(bag: Bag): string {
	const arrived = bag.arrivals[0];
	return arrived ? `room ${arrived.room}` : receiverWord(bag.to);
}

function receiverWord(to: BagTo | null): string {
	if (to === null || to.to === 'open') return '';
	return to.to === 'room' ? `room ${to.room}` : `${to.to} ${to.name}`;
}
