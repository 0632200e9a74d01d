/**
 * From judged entries to things: each thing is made anew from the entries about it, in order of place. Bags first,
 * then the groups their fish left or joined, then exchanges: nothing depends the other way round.
 */
import type { Authority } from './authority.ts';
import { BagDerivation } from './bagDerivation.ts';
import { blank } from './blank.ts';
import type { Corrections } from './corrections.ts';
import type { ThingId } from './entry.ts';
import type { Fork } from './families.ts';
import { finishExchange } from './finishExchange.ts';
import { finishGroup } from './finishGroup.ts';
import { finishThing } from './finishThing.ts';
import type { Item } from './item.ts';
import type { ThingType, ThingTypes, Told } from './kind.ts';
import { momentOf } from './rights.ts';
import type { ClubState, Dispute, Thing } from './state.ts';
import { said } from './said.ts';

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
const simpleTypes = ['club', 'member', 'room', 'line', 'spawn', 'meeting'] as const;

export class Derivation {
	readonly #corrections: Corrections;
	readonly #authority: Authority;
	/** Thing id -> its entries; sorted by place when read. */
	readonly #items = new Map<ThingId, Item[]>();
	/** Thing id -> the types that it was ever spoken of as; an honest thing has one. */
	readonly #types = new Map<ThingId, number>();
	readonly #unsorted = new Set<ThingId>();
	#dirty = new Set<ThingId>();
	readonly #maps = emptyMaps();
	readonly #bags: BagDerivation;
	state: ClubState;

	constructor(corrections: Corrections, authority: Authority) {
		this.#corrections = corrections;
		this.#authority = authority;
		const source = {
			itemsOf: (thing: ThingId) => this.itemsOf(thing),
			derive: (id: ThingId) => this.#derive('bag', [id])
		};
		this.#bags = new BagDerivation(source, corrections, this.#maps.bag);
		this.state = this.#newState();
	}

	itemsOf(thing: ThingId): readonly Item[] {
		return this.#items.get(thing) ?? [];
	}

	list(item: Item): void {
		for (const thing of item.listed) {
			const items = this.#items.get(thing);
			if (items) {
				const last = items.at(-1);
				if (last && comesAfter(last, item)) this.#unsorted.add(thing);
				items.push(item);
			} else this.#items.set(thing, [item]);
		}
		for (const thing of item.things) {
			const known = this.#types.get(thing.id) ?? 0;
			if ((known & bit[thing.type]) === 0) this.#types.set(thing.id, known | bit[thing.type]);
		}
	}

	unlist(item: Item): void {
		for (const thing of item.listed) {
			const items = this.#items.get(thing);
			const at = items?.indexOf(item) ?? -1;
			if (at >= 0) items?.splice(at, 1);
			this.#dirty.add(thing);
		}
	}

	/** An item whose place changed. */
	relist(item: Item): void {
		for (const thing of item.listed) this.#unsorted.add(thing);
	}

	touch(item: Item): void {
		for (const thing of item.listed) this.#dirty.add(thing);
	}

	/** Derives everything touched since the last run. */
	run(): void {
		this.#corrections.forgetFamilies();
		const dirty = this.#dirty;
		this.#dirty = new Set();
		const bags: ThingId[] = [];
		const groups = new Set<ThingId>();
		const exchanges = new Set<ThingId>();
		for (const id of dirty) {
			const types = this.#types.get(id) ?? 0;
			if (types & bit.bag) bags.push(id);
			if (types & bit.group) groups.add(id);
			if (types & bit.exchange) exchanges.add(id);
			if ((types & ~(bit.bag | bit.group | bit.exchange)) === 0) continue;
			for (const type of simpleTypes) if (types & bit[type]) this.#deriveSimple(type, id);
		}
		this.#bags.run(bags, { groups, exchanges });
		const done = new Set<ThingId>();
		for (const id of groups) {
			if (done.has(id)) continue;
			const together = this.#bags.groups.together(id);
			for (const one of together) done.add(one);
			this.#deriveGroup(together);
		}
		for (const id of exchanges) this.#deriveExchange(id);
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

	#sorted(id: ThingId): readonly Item[] {
		const items = this.#items.get(id) ?? [];
		if (this.#unsorted.delete(id)) items.sort((a, b) => (comesAfter(a, b) ? 1 : -1));
		return items;
	}

	#deriveSimple<T extends ThingType>(type: T, id: ThingId): void {
		const thing = this.#derive(type, [id]);
		const map = this.#maps[type] as Map<ThingId, ThingTypes[T]>;
		if (thing) map.set(id, thing);
		else map.delete(id);
	}

	/** Applies the entries of one thing (and of ids joined to it); null when nobody speaks of it as such a thing. */
	#derive<T extends ThingType>(type: T, ids: readonly ThingId[]): ThingTypes[T] | null {
		const id = ids[0] ?? '';
		const thing = blank[type](id) as ThingTypes[T];
		const entries: Item[] = [];
		const forks = new Set<Fork>();
		let isSpoken = false;
		for (const one of ids) {
			for (const item of this.#sorted(one)) {
				entries.push(item);
				if (!speaksOfIt(item, one, type)) {
					if (item.verdict.name !== 'counts') this.#leaveOut(thing, item);
					continue;
				}
				isSpoken = true;
				this.#tell(type, thing, one, item, forks);
			}
		}
		if (!isSpoken) return null;
		(thing as { id: ThingId }).id = id;
		thing.twoVersions = [...forks].map((fork) => fork.ends.map((one) => one.entry.id));
		thing.entries = idsInRank(entries, ids.length > 1);
		finishThing[type]?.(thing);
		return thing;
	}

	#tell<T extends ThingType>(type: T, thing: ThingTypes[T], id: ThingId, item: Item, forks: Set<Fork>): void {
		const isAlone = this.#corrections.isAlone(item);
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
		return {
			entry: item.entry,
			body: item.body,
			when: item.when ?? { first: 0, last: 0, text: '' },
			keeps: (room) => this.#keeps(item, room),
			n: item.stamp?.n ?? null
		};
	}

	#keeps(item: Item, room: ThingId): boolean {
		const at = momentOf(item);
		if (this.#authority.keeps(item.entry.by, room, at)) return true;
		return this.#corrections.confirmations(item).some((tap) => this.#authority.keeps(tap.entry.by, room, at));
	}

	#disputes(item: Item): Dispute[] {
		const disputes: Dispute[] = [];
		for (const one of this.#corrections.referrers(item)) {
			if (one.entry.kind !== 'word/disputed' || one.verdict.name !== 'counts') continue;
			if (this.#corrections.isReplaced(one)) continue;
			const { reason } = one.body as { reason: string };
			disputes.push({ ...said(this.#told(one)), of: item.entry.id, reason, decided: this.#decision(one) });
		}
		return disputes.sort((a, b) => (a.entry < b.entry ? -1 : 1));
	}

	#decision(dispute: Item): Dispute['decided'] {
		let last: Item | null = null;
		for (const one of this.#corrections.referrers(dispute)) {
			if (one.entry.kind !== 'word/decided' || one.verdict.name !== 'counts') continue;
			if (this.#corrections.live(one).length > 0 || (last && one.rank < last.rank)) continue;
			last = one;
		}
		if (!last) return null;
		const { stands, reason } = last.body as { stands: boolean; reason: string };
		return { ...said(this.#told(last)), stands, reason };
	}

	#deriveGroup(ids: readonly ThingId[]): void {
		const group = this.#derive('group', ids);
		if (!group) {
			for (const id of ids) this.#maps.group.delete(id);
			return;
		}
		const bags = new Set(group.bags.flatMap((bag) => this.#maps.bag.get(bag) ?? []));
		group.bags = [...new Set([...bags].map((bag) => bag.id))];
		group.spawns = [...new Set(group.spawns)];
		finishGroup(group, ids, [...bags]);
		for (const id of ids) this.#maps.group.set(id, group);
	}

	#deriveExchange(id: ThingId): void {
		this.#deriveSimple('exchange', id);
		const exchange = this.#maps.exchange.get(id);
		if (!exchange) return;
		const bags = new Set(exchange.bags.flatMap((bag) => this.#maps.bag.get(bag) ?? []));
		exchange.bags = [...new Set([...bags].map((bag) => bag.id))];
		finishExchange(exchange, [...bags]);
	}
}

function comesAfter(a: Item, b: Item): boolean {
	return a.place !== b.place ? a.place > b.place : a.rank > b.rank;
}

function speaksOfIt(item: Item, id: ThingId, type: ThingType): boolean {
	for (const thing of item.things) if (thing.id === id && thing.type === type) return true;
	return false;
}

/** Places and ranks differ only where something was corrected: mostly the list is in order already. */
function idsInRank(items: Item[], mayRepeat: boolean): string[] {
	let isInOrder = true;
	for (let i = 1; i < items.length && isInOrder; i++)
		isInOrder = (items[i - 1] as Item).rank <= (items[i] as Item).rank;
	if (!isInOrder) items.sort((a, b) => (a.rank < b.rank ? -1 : 1));
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
