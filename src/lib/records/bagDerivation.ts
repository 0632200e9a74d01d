/**
 * Bags out of their entries (SPEC R50 to R57): first each id by itself, then those that are one bag together; which
 * groups and exchanges follow from them; which groups are one because two people told of one arrival.
 */
import { bagClusters, type PairWord } from './bagNumbers.ts';
import type { Corrections } from './corrections.ts';
import type { EntryId, ThingId } from './entry.ts';
import { finishBag } from './finishBag.ts';
import type { Item } from './item.ts';
import { mergeBags } from './mergeBags.ts';
import { JoinedGroups } from './joinedGroups.ts';
import { compareRanks } from './rank.ts';
import type { Bag } from './state.ts';

export interface BagSource {
	itemsOf(thing: ThingId): readonly Item[];
	/** The bag that one id's entries tell of, or null. */
	derive(id: ThingId): Bag | null;
}

/** Things that are made of bags and have to be made anew. */
export interface BagDependents {
	readonly groups: Set<ThingId>;
	readonly exchanges: Set<ThingId>;
}

export class BagDerivation {
	readonly #source: BagSource;
	readonly #corrections: Corrections;
	readonly #bags: Map<ThingId, Bag>;
	/** Each bag id by itself, before bags are joined. */
	readonly #single = new Map<ThingId, Bag>();
	readonly #byNumber = new Map<string, Set<ThingId>>();
	/** Groups that are one, because two people told of one arrival. */
	readonly groups = new JoinedGroups();
	readonly #rankOf: (entry: EntryId) => string;

	/** @param bags the club state's bags by every id, filled from here */
	constructor(source: BagSource, corrections: Corrections, bags: Map<ThingId, Bag>) {
		this.#source = source;
		this.#corrections = corrections;
		this.#bags = bags;
		this.#rankOf = (entry) => corrections.rankOf(entry);
	}

	/** Makes bags anew, and all that are or were one bag with them. */
	run(touched: readonly ThingId[], dependents: BagDependents): void {
		const work = [...touched];
		for (const id of touched) {
			work.push(...this.#peers(id));
			this.#dropNumber(id);
			const bag = this.#source.derive(id);
			if (bag) {
				this.#single.set(id, finishBag(bag, this.#rankOf));
				this.#indexNumber(bag);
			} else this.#single.delete(id);
		}
		const all = new Set<ThingId>();
		for (let id = work.pop(); id !== undefined; id = work.pop()) {
			if (all.has(id)) continue;
			all.add(id);
			work.push(...this.#peers(id), ...this.#paired(id), ...(this.#bags.get(id)?.ids ?? []));
		}
		this.#forget(all, dependents);
		this.#join(all, dependents);
	}

	#forget(ids: ReadonlySet<ThingId>, dependents: BagDependents): void {
		for (const id of ids) {
			const bag = this.#bags.get(id);
			if (!bag) continue;
			noteDependents(bag, dependents);
			for (const group of this.groups.release(bag)) dependents.groups.add(group);
			this.#bags.delete(id);
		}
	}

	#join(ids: ReadonlySet<ThingId>, dependents: BagDependents): void {
		const singles = [...ids].sort().flatMap((id) => this.#single.get(id) ?? []);
		for (const cluster of bagClusters(singles, this.#pairWords(ids))) {
			const bag = this.#cluster(cluster.ids, cluster.clash);
			for (const id of cluster.ids) this.#bags.set(id, bag);
			for (const group of this.groups.claim(bag, this.#rankOf)) dependents.groups.add(group);
			noteDependents(bag, dependents);
		}
	}

	#cluster(ids: readonly ThingId[], clash: readonly ThingId[]): Bag {
		const parts = ids.flatMap((id) => this.#single.get(id) ?? []);
		const [only, second] = parts;
		if (only && !second) return clash.length ? { ...only, numberClash: [...clash] } : only;
		const bag = finishBag(mergeBags(parts, this.#rankOf), this.#rankOf);
		bag.numberClash = [...clash];
		return bag;
	}

	#peers(id: ThingId): readonly ThingId[] {
		const number = this.#single.get(id)?.number;
		const peers = number ? this.#byNumber.get(number) : undefined;
		return peers && peers.size > 1 ? [...peers] : [];
	}

	#pairItems(id: ThingId): readonly Item[] {
		const items = this.#source.itemsOf(id);
		return items.some(isPairKind)
			? items.filter((item) => isPairKind(item) && item.verdict.name === 'counts')
			: [];
	}

	#paired(id: ThingId): readonly ThingId[] {
		return this.#pairItems(id).flatMap((item) => (item.body as { bags: ThingId[] }).bags);
	}

	/** What persons said of pairs of bags: for each pair only the last. */
	#pairWords(ids: ReadonlySet<ThingId>): PairWord[] {
		const items = new Set<Item>();
		for (const id of ids) for (const item of this.#pairItems(id)) items.add(item);
		if (items.size === 0) return [];
		const standing = [...items].filter(
			(item) => !this.#corrections.isReplaced(item) && !this.#corrections.isLesser(item)
		);
		standing.sort((a, b) => compareRanks(a.rank, b.rank));
		const last = new Map<string, PairWord>();
		for (const item of standing) {
			const bags = [...(item.body as { bags: ThingId[] }).bags].sort();
			bags.forEach((a, i) => {
				for (const b of bags.slice(i + 1))
					last.set(`${a} ${b}`, { a, b, one: item.kind?.kind === 'bag/joined' });
			});
		}
		return [...last.keys()].sort().map((key) => last.get(key) as PairWord);
	}

	#indexNumber(bag: Bag): void {
		if (!bag.number) return;
		const same = this.#byNumber.get(bag.number);
		if (same) same.add(bag.id);
		else this.#byNumber.set(bag.number, new Set([bag.id]));
	}

	#dropNumber(id: ThingId): void {
		const number = this.#single.get(id)?.number;
		if (number) this.#byNumber.get(number)?.delete(id);
	}
}

function isPairKind(item: Item): boolean {
	const kind = item.kind?.kind;
	return kind === 'bag/joined' || kind === 'bag/parted';
}

function noteDependents(bag: Bag, { groups, exchanges }: BagDependents): void {
	for (const statement of bag.statements)
		for (const content of statement.contents) if (content.group) groups.add(content.group);
	for (const arrival of bag.arrivals) groups.add(arrival.group);
	if (bag.exchange) exchanges.add(bag.exchange);
}
