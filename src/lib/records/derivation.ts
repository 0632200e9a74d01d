/**
 * From judged entries to things: each thing is made anew from the entries about it, in order of place; one that only
 * got more of them is told those. Bags first, then the groups their fish left or joined, then exchanges: nothing
 * depends the other way round.
 */
import type { Authority } from './authority.ts';
import { BagDerivation } from './bagDerivation.ts';
import { blank } from './blank.ts';
import type { Corrections } from './corrections.ts';
import { changed, hasMore, upToDate, type Dossier, type Dossiers } from './dossier.ts';
import type { ThingId } from './entry.ts';
import type { Fork } from './families.ts';
import { finishExchange } from './finishExchange.ts';
import { finishGroup } from './finishGroup.ts';
import { finishThing } from './finishThing.ts';
import type { Item, Surroundings } from './item.ts';
import type { ThingType, ThingTypes, Told } from './kind.ts';
import { compareRanks } from './rank.ts';
import type { Bag, ClubState, Dispute, Thing } from './state.ts';
import { said } from './said.ts';
import { Telling } from './telling.ts';

type Maps = { [T in ThingType]: Map<ThingId, ThingTypes[T]> };

const bit: { readonly [T in ThingType]: number } = {
	club: 1,
	member: 2,
	room: 4,
	line: 8,
	group: 16,
	spawn: 32,
	bag: 64,
	exchange: 128,
	meeting: 256
};
/** Types whose things are made of their own entries alone. */
const simpleTypes = ['club', 'member', 'room', 'line', 'spawn', 'meeting'] as const;
const madeOfBags = bit.bag | bit.group | bit.exchange;

export class Derivation {
	readonly #corrections: Corrections;
	readonly #authority: Authority;
	readonly #dossiers: Dossiers<Item>;
	readonly #timeZone: string;
	#dirty: Dossier<Item>[] = [];
	/** Items that are in their dossiers but not yet in the things. */
	#untold: Item[] = [];
	readonly #maps = emptyMaps();
	readonly #bags: BagDerivation;
	state: ClubState;

	constructor(corrections: Corrections, { authority, dossiers, timeZone }: Surroundings) {
		this.#corrections = corrections;
		this.#authority = authority;
		this.#dossiers = dossiers;
		this.#timeZone = timeZone;
		const source = {
			itemsOf: (thing: ThingId) => dossiers.get(thing)?.items ?? [],
			derive: (id: ThingId) => this.#derive('bag', [dossiers.of(id)])
		};
		this.#bags = new BagDerivation(source, corrections, this.#maps.bag);
		this.state = this.#newState();
	}

	/** Puts an item into its dossiers: it is told from the next run on. */
	list(item: Item): void {
		for (const dossier of item.listed) {
			dossier.list(item);
			this.#mark(dossier, this.#corrections.isAlone(item) ? hasMore : changed);
		}
		for (const thing of item.things) thing.dossier.types |= bit[thing.type];
		this.#untold.push(item);
	}

	unlist(item: Item): void {
		for (const dossier of item.listed) {
			dossier.unlist(item);
			this.#mark(dossier, changed);
		}
	}

	/** An item whose place changed. */
	relist(item: Item): void {
		for (const dossier of item.listed) {
			dossier.unsort();
			this.#mark(dossier, changed);
		}
	}

	/** An item whose effect may have changed. */
	touch(item: Item): void {
		const need = item.isTold || !this.#corrections.isAlone(item) ? changed : hasMore;
		for (const dossier of item.listed) this.#mark(dossier, need);
	}

	#mark(dossier: Dossier<Item>, need: number): void {
		if (!dossier.isMarked) this.#dirty.push(dossier);
		dossier.isMarked = true;
		if (need > dossier.needs) dossier.needs = need;
	}

	/** Derives everything touched since the last run. */
	run(): void {
		this.#corrections.forgetFamilies();
		const dirty = this.#dirty;
		this.#dirty = [];
		const bags: ThingId[] = [];
		const groups = new Set<ThingId>();
		const exchanges = new Set<ThingId>();
		for (const dossier of dirty) {
			const { id, types } = dossier;
			if (types & bit.bag) bags.push(id);
			if (types & bit.group) groups.add(id);
			if (types & bit.exchange) exchanges.add(id);
			if (types & ~madeOfBags) this.#deriveSimple(dossier);
			dossier.needs = upToDate;
			dossier.isMarked = false;
		}
		this.#bags.run(bags, { groups, exchanges });
		this.#deriveGroups(groups);
		for (const id of exchanges) this.#deriveExchange(id);
		for (const item of this.#untold) item.isTold = true;
		this.#untold = [];
		this.state = this.#newState();
	}

	#newState(): ClubState {
		const { member, room, line, group, spawn, bag, exchange, meeting, club } = this.#maps;
		const rank = (one: ThingTypes['club']) => this.#corrections.rankOf(one.opened?.entry ?? '');
		const opened = [...club.values()]
			.filter((one) => one.opened)
			.sort((a, b) => (rank(a) < rank(b) ? -1 : 1));
		return {
			club: opened[0] ?? blank.club(''),
			members: member,
			rooms: room,
			lines: line,
			groups: group,
			spawns: spawn,
			bags: bag,
			exchanges: exchange,
			meetings: meeting
		};
	}

	#deriveSimple(dossier: Dossier<Item>): void {
		for (const type of simpleTypes) {
			if ((dossier.types & bit[type]) === 0) continue;
			if (dossier.needs === hasMore && this.#tellMore(type, dossier)) continue;
			this.#put(type, dossier.id, this.#derive(type, [dossier]));
		}
		dossier.told = dossier.items.length;
	}

	#put<T extends ThingType>(type: T, id: ThingId, thing: ThingTypes[T] | null): void {
		const map = this.#maps[type] as Map<ThingId, ThingTypes[T]>;
		if (thing) map.set(id, thing);
		else map.delete(id);
	}

	/** Tells a thing its new entries, when they stand behind all others; says whether it could. */
	#tellMore<T extends ThingType>(type: T, dossier: Dossier<Item>): boolean {
		const thing = this.#maps[type].get(dossier.id) as ThingTypes[T] | undefined;
		const items = dossier.inOrder;
		const last = this.#corrections.item(thing?.entries.at(-1) ?? '');
		const next = items[dossier.told];
		if (!thing || !last || !next || compareRanks(last.rank, next.rank) > 0) return false;
		for (let i = dossier.told; i < items.length; i++) {
			const item = items[i] as Item;
			thing.entries.push(item.entry.id);
			if (isAbout(item, dossier, type)) this.#tell(type, thing, dossier.id, item, null);
			else if (item.verdict.name !== 'counts') this.#leaveOut(thing, item);
		}
		finishThing[type](thing);
		return true;
	}

	/** Applies the entries of one thing (and of ids joined to it); null when nobody speaks of it as such a thing. */
	#derive<T extends ThingType>(type: T, dossiers: readonly Dossier<Item>[]): ThingTypes[T] | null {
		const id = dossiers[0]?.id ?? '';
		const thing = blank[type](id) as ThingTypes[T];
		const entries: Item[] = [];
		const forks = new Set<Fork>();
		let isSpoken = false;
		for (const dossier of dossiers) {
			for (const item of dossier.inOrder) {
				entries.push(item);
				if (isAbout(item, dossier, type)) {
					isSpoken = true;
					this.#tell(type, thing, dossier.id, item, forks);
				} else if (item.verdict.name !== 'counts') this.#leaveOut(thing, item);
			}
		}
		if (!isSpoken) return null;
		(thing as { id: ThingId }).id = id;
		if (forks.size > 0) thing.twoVersions = [...forks].map((fork) => fork.ends.map((one) => one.entry.id));
		thing.entries = idsInRank(entries, dossiers.length > 1);
		finishThing[type](thing);
		return thing;
	}

	/** @param forks null where the item is known to stand alone */
	#tell<T extends ThingType>(
		type: T,
		thing: ThingTypes[T],
		id: ThingId,
		item: Item,
		forks: Set<Fork> | null
	): void {
		const isAlone = forks === null || this.#corrections.isAlone(item);
		if (!isAlone) for (const fork of this.#corrections.forks(item)) forks.add(fork);
		if (item.verdict.name !== 'counts') {
			this.#leaveOut(thing, item);
			return;
		}
		if (!isAlone) {
			thing.disputes.push(...this.#disputes(item));
			if (this.#corrections.isReplaced(item) || this.#corrections.isLesser(item)) return;
		}
		const apply = item.kind?.apply[type] as ((thing: ThingTypes[T], told: Told) => void) | undefined;
		if (!apply) return;
		(thing as { id: ThingId }).id = id;
		apply(thing, this.#told(item));
	}

	/** What does not count is named, unless its writer took it back or something else stands in its place. */
	#leaveOut(thing: Thing, item: Item): void {
		if (!this.#corrections.isReplaced(item)) thing.leftOut.push(item.entry.id);
	}

	#told(item: Item): Told {
		return new Telling(item, this.#authority, this.#corrections, this.#timeZone);
	}

	#disputes(item: Item): Dispute[] {
		const disputes: Dispute[] = [];
		for (const one of this.#corrections.referrers(item)) {
			if (one.kind?.kind !== 'word/disputed' || one.verdict.name !== 'counts') continue;
			if (this.#corrections.isReplaced(one)) continue;
			const { reason } = one.body as { reason: string };
			disputes.push({ ...said(this.#told(one)), of: item.entry.id, reason, decided: this.#decision(one) });
		}
		return disputes.sort((a, b) => (a.entry < b.entry ? -1 : 1));
	}

	#decision(dispute: Item): Dispute['decided'] {
		let last: Item | null = null;
		for (const one of this.#corrections.referrers(dispute)) {
			if (one.kind?.kind !== 'word/decided' || one.verdict.name !== 'counts') continue;
			if (this.#corrections.live(one).length > 0 || (last && compareRanks(one.rank, last.rank) < 0)) continue;
			last = one;
		}
		if (!last) return null;
		const { stands, reason } = last.body as { stands: boolean; reason: string };
		return { ...said(this.#told(last)), stands, reason };
	}

	#deriveGroups(groups: ReadonlySet<ThingId>): void {
		const done = new Set<ThingId>();
		for (const id of groups) {
			if (done.has(id)) continue;
			const ids = this.#bags.groups.together(id);
			if (ids.length > 1) for (const one of ids) done.add(one);
			this.#deriveGroup(ids);
		}
	}

	#deriveGroup(ids: readonly ThingId[]): void {
		const group = this.#derive(
			'group',
			ids.map((id) => this.#dossiers.of(id))
		);
		for (const id of ids) this.#put('group', id, group);
		if (!group) return;
		const bags = this.#bagsOf(group.bags);
		group.bags = bags.map((bag) => bag.id);
		if (group.spawns.length > 1) group.spawns = [...new Set(group.spawns)];
		finishGroup(group, ids, bags);
	}

	#deriveExchange(id: ThingId): void {
		const exchange = this.#derive('exchange', [this.#dossiers.of(id)]);
		this.#put('exchange', id, exchange);
		if (!exchange) return;
		const bags = this.#bagsOf(exchange.bags);
		exchange.bags = bags.map((bag) => bag.id);
		finishExchange(exchange, bags);
	}

	/** The bags of these ids, each once: several ids may be one bag. */
	#bagsOf(ids: readonly ThingId[]): Bag[] {
		const bags: Bag[] = [];
		for (const id of ids) {
			const bag = this.#maps.bag.get(id);
			if (bag && !bags.includes(bag)) bags.push(bag);
		}
		return bags;
	}
}

function isAbout(item: Item, dossier: Dossier<Item>, type: ThingType): boolean {
	for (const thing of item.things) if (thing.dossier === dossier && thing.type === type) return true;
	return false;
}

/** Places and ranks differ only where something was corrected: mostly the list is in order already. */
function idsInRank(items: Item[], mayRepeat: boolean): string[] {
	let isInOrder = true;
	for (let i = 1; i < items.length && isInOrder; i++)
		isInOrder = compareRanks((items[i - 1] as Item).rank, (items[i] as Item).rank) <= 0;
	if (!isInOrder) items.sort((a, b) => compareRanks(a.rank, b.rank));
	const ids = items.map((item) => item.entry.id);
	return mayRepeat ? [...new Set(ids)] : ids;
}

function emptyMaps(): Maps {
	return {
		club: new Map(),
		member: new Map(),
		room: new Map(),
		line: new Map(),
		group: new Map(),
		spawn: new Map(),
		bag: new Map(),
		exchange: new Map(),
		meeting: new Map()
	};
}
