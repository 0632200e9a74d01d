/**
 * What the fold keeps of one thing beside its state: the entries about it, and where they place it. Found once for
 * each entry, by the thing's id; from then on everything goes by the dossier itself.
 */
import type { ThingId } from './entry.ts';
import type { ThingRef, ThingType } from './kind.ts';
import { nowhere, type Placings } from './placings.ts';
import { compareRanks, type Rank } from './rank.ts';

/** Something listed in dossiers: an entry with its place among others. */
export interface Placed {
	readonly place: Rank;
	readonly rank: Rank;
}

/** A thing that an entry is about, with its dossier. One object for each thing and type. */
export class Subject<Item extends Placed> implements ThingRef {
	readonly type: ThingType;
	readonly id: ThingId;
	readonly dossier: Dossier<Item>;
	/** A list of this subject alone, shared: most entries are about one thing. */
	readonly alone: readonly Subject<Item>[] = [this];

	constructor(type: ThingType, dossier: Dossier<Item>) {
		this.type = type;
		this.id = dossier.id;
		this.dossier = dossier;
	}
}

/** What has to be done before a thing's state is right again. */
export const upToDate = 0;
/** New entries came that stand behind all others. */
export const hasMore = 1;
export const changed = 2;

export class Dossier<Item extends Placed> {
	readonly id: ThingId;
	/** A list of this dossier alone, shared. */
	readonly alone: readonly Dossier<Item>[] = [this];
	/** The types that it was ever spoken of as, see `typeBit`; an honest thing has one. */
	types = 0;
	needs = upToDate;
	/** Is on the list of things to look at. */
	isMarked = false;
	/** How many of its entries are in the state, counted from the first. */
	told = 0;
	/** Rooms that hold, held, give or receive the thing; the lines and meetings that it belongs to. */
	rooms: Placings = nowhere;
	lines: Placings = nowhere;
	meetings: Placings = nowhere;
	readonly #items: Item[] = [];
	#isSorted = true;
	#subjects: readonly Subject<Item>[] = [];

	constructor(id: ThingId) {
		this.id = id;
	}

	subject(type: ThingType): Subject<Item> {
		for (const known of this.#subjects) if (known.type === type) return known;
		const subject = new Subject(type, this);
		this.#subjects = [...this.#subjects, subject];
		return subject;
	}

	/** Its entries as they came. */
	get items(): readonly Item[] {
		return this.#items;
	}

	/** Its entries in the order of their places. */
	get inOrder(): readonly Item[] {
		if (!this.#isSorted) this.#items.sort(byPlace);
		this.#isSorted = true;
		return this.#items;
	}

	list(item: Item): void {
		const last = this.#items.at(-1);
		// An entry may name a thing as two types; it is listed once.
		if (last === item) return;
		if (last && byPlace(last, item) > 0) this.unsort();
		this.#items.push(item);
	}

	unlist(item: Item): void {
		const at = this.#items.lastIndexOf(item);
		if (at >= 0) this.#items.splice(at, 1);
		this.needs = changed;
	}

	/** An entry came between others, or its place changed. */
	unsort(): void {
		this.#isSorted = false;
		this.needs = changed;
	}
}

function byPlace(a: Placed, b: Placed): number {
	return compareRanks(a.place, b.place) || compareRanks(a.rank, b.rank);
}

export class Dossiers<Item extends Placed> {
	readonly #byId = new Map<ThingId, Dossier<Item>>();

	of(id: ThingId): Dossier<Item> {
		const known = this.#byId.get(id);
		if (known) return known;
		const made = new Dossier<Item>(id);
		this.#byId.set(id, made);
		return made;
	}

	get(id: ThingId): Dossier<Item> | null {
		return this.#byId.get(id) ?? null;
	}
}
