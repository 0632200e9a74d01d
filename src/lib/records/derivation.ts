/**
 * From judged entries to things: each thing is made anew from the entries about it, in order of place. Bags first,
 * then the groups their fish left or joined, then exchanges: nothing depends the other way round.
 */
import type { Authority } from './authority.ts';
import { bagClusters, type PairWord } from './bagNumbers.ts';
import { blank, defaultRules } from './blank.ts';
import type { Corrections } from './corrections.ts';
import type { EntryId, ThingId } from './entry.ts';
import { finishBag } from './finishBag.ts';
import { finishExchange } from './finishExchange.ts';
import { finishGroup } from './finishGroup.ts';
import type { Item } from './item.ts';
import { listedUnder } from './item.ts';
import type { ThingType, ThingTypes, Told } from './kind.ts';
import type { Bag, ClubState, Dispute, Group, Thing } from './state.ts';
import { said } from './said.ts';

type Maps = { [T in ThingType]: Map<ThingId, ThingTypes[T]> };

/** What is kept of a derivation in a saved fold. */
export interface DerivedState {
	readonly maps: Maps;
	readonly singleBags: Map<ThingId, Bag>;
	readonly joinedGroups: Map<ThingId, ThingId>;
}

const types: readonly ThingType[] = [
	'club',
	'member',
	'room',
	'line',
	'group',
	'spawn',
	'bag',
	'exchange',
	'meeting'
];

export class Derivation {
	readonly #corrections: Corrections;
	readonly #authority: Authority;
	/** Thing id -> its entries; sorted by place when read. */
	readonly #items = new Map<ThingId, Item[]>();
	readonly #unsorted = new Set<ThingId>();
	#dirty = new Set<ThingId>();
	#maps: Maps = emptyMaps();
	/** Each bag id by itself, before bags are joined. */
	#singleBags = new Map<ThingId, Bag>();
	readonly #bagsByNumber = new Map<string, Set<ThingId>>();
	/** A group told of twice (two arrivals of one bag) -> the group that stands for both. */
	#joinedGroups = new Map<ThingId, ThingId>();
	state: ClubState = this.#newState();

	constructor(corrections: Corrections, authority: Authority) {
		this.#corrections = corrections;
		this.#authority = authority;
	}

	itemsOf(thing: ThingId): readonly Item[] {
		return this.#items.get(thing) ?? [];
	}

	list(item: Item): void {
		for (const thing of new Set(listedUnder(item))) {
			const items = this.#items.get(thing);
			if (items) items.push(item);
			else this.#items.set(thing, [item]);
			this.#unsorted.add(thing);
		}
	}

	unlist(item: Item): void {
		for (const thing of new Set(listedUnder(item))) {
			const items = this.#items.get(thing);
			const at = items?.indexOf(item) ?? -1;
			if (at >= 0) items?.splice(at, 1);
			this.#dirty.add(thing);
		}
	}

	/** An item whose place changed. */
	relist(item: Item): void {
		for (const thing of listedUnder(item)) this.#unsorted.add(thing);
	}

	touch(item: Item): void {
		for (const thing of listedUnder(item)) this.#dirty.add(thing);
	}

	save(): DerivedState {
		return { maps: this.#maps, singleBags: this.#singleBags, joinedGroups: this.#joinedGroups };
	}

	restore(saved: DerivedState): void {
		this.#maps = saved.maps;
		this.#singleBags = saved.singleBags;
		this.#joinedGroups = saved.joinedGroups;
		for (const bag of this.#singleBags.values()) this.#indexNumber(bag);
		this.#dirty.clear();
		this.state = this.#newState();
	}

	/** Derives everything touched since the last run. */
	run(): void {
		const dirty = this.#dirty;
		this.#dirty = new Set();
		const groups = new Set<ThingId>();
		const exchanges = new Set<ThingId>();
		this.#runBags(dirty, groups, exchanges);
		for (const id of dirty) {
			for (const type of this.#typesOf(id)) {
				if (type === 'group') groups.add(id);
				else if (type === 'exchange') exchanges.add(id);
				else if (type !== 'bag') this.#deriveSimple(type, id);
			}
		}
		for (const id of new Set([...groups].map((group) => this.#joinedGroups.get(group) ?? group)))
			this.#deriveGroup(id);
		for (const id of exchanges) this.#deriveExchange(id);
		this.state = this.#newState();
	}

	#newState(): ClubState {
		const { member, room, line, group, spawn, bag, exchange, meeting, club } = this.#maps;
		const first = [...club.values()].find((one) => one.opened) ?? blank.club('');
		return {
			club: first,
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

	#typesOf(id: ThingId): Set<ThingType> {
		const found = new Set<ThingType>();
		for (const item of this.#items.get(id) ?? []) {
			for (const thing of item.things) if (thing.id === id) found.add(thing.type);
		}
		// A thing whose last entry went away (undo, another stamp) is made anew as well.
		for (const type of types) if (this.#maps[type].has(id)) found.add(type);
		return found;
	}

	#sorted(id: ThingId): readonly Item[] {
		const items = this.#items.get(id) ?? [];
		if (this.#unsorted.delete(id)) {
			items.sort((a, b) => (a.place !== b.place ? (a.place < b.place ? -1 : 1) : a.rank < b.rank ? -1 : 1));
		}
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
		const suppressed = new Set<Item>();
		let spoken = false;
		for (const one of ids) {
			for (const item of this.#sorted(one)) {
				entries.push(item);
				const asSuch = item.things.some((ref) => ref.id === one && ref.type === type);
				if (asSuch) spoken = true;
				this.#tell(type, thing, one, item, asSuch, suppressed);
			}
		}
		if (!spoken) return null;
		(thing as Thing & { id: ThingId }).id = id;
		entries.sort((a, b) => (a.rank < b.rank ? -1 : 1));
		thing.entries = [...new Set(entries.map((item) => item.entry.id))];
		this.#finish(type, thing);
		return thing;
	}

	#tell<T extends ThingType>(
		type: T,
		thing: ThingTypes[T],
		id: ThingId,
		item: Item,
		asSuch: boolean,
		suppressed: Set<Item>
	): void {
		if (item.verdict.name !== 'counts' || !asSuch) {
			if (item.verdict.name !== 'counts') thing.leftOut.push(item.entry.id);
			return;
		}
		thing.disputes.push(...this.#disputes(item));
		const versions = item.corrects.length === 0 ? this.#corrections.versions(item) : [];
		if (versions.length > 1) {
			thing.twoVersions.push(versions.map((one) => one.entry.id));
			for (const one of versions.slice(0, -1)) suppressed.add(one);
		}
		if (suppressed.has(item) || this.#corrections.isReplaced(item) || this.#isLesserVersion(item)) return;
		const apply = item.kind?.apply[type] as ((thing: ThingTypes[T], told: Told) => void) | undefined;
		if (!apply) return;
		(thing as { id: ThingId }).id = id;
		apply(thing, this.#told(item));
	}

	/** A correction of something that has a later version which had not seen it. */
	#isLesserVersion(item: Item): boolean {
		if (item.corrects.length === 0) return false;
		return this.#corrections.targets(item).some((target) => {
			const versions = this.#corrections.versions(target);
			return versions.length > 1 && versions.at(-1) !== item && versions.includes(item);
		});
	}

	#told(item: Item): Told {
		const when = item.when ?? { first: 0, last: 0, text: '' };
		const at = { n: null, time: when.last };
		return {
			entry: item.entry,
			body: item.body,
			when,
			keeps: (room) => this.#authority.keeps(item.entry.by, room, at),
			n: item.stamp?.n ?? null
		};
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
		const decisions = [...this.#corrections.referrers(dispute)]
			.filter((one) => one.entry.kind === 'word/decided' && one.verdict.name === 'counts')
			.sort((a, b) => (a.rank < b.rank ? -1 : 1));
		const last = decisions.at(-1);
		if (!last) return null;
		const { stands, reason } = last.body as { stands: boolean; reason: string };
		return { ...said(this.#told(last)), stands, reason };
	}

	#finish(type: ThingType, thing: Thing): void {
		switch (type) {
			case 'line': {
				const line = thing as ThingTypes['line'];
				line.known = line.opened !== null;
				if (!line.rulesSaid) line.rules = defaultRules(line.fishGroup === 'annual killifish');
				return;
			}
			case 'group':
				thing.known = (thing as Group).started !== null;
				return;
			case 'spawn':
				thing.known = (thing as ThingTypes['spawn']).seen !== null;
				return;
			case 'bag':
				thing.known = (thing as Bag).statements.length > 0;
				return;
			case 'exchange':
				thing.known = (thing as ThingTypes['exchange']).proposed !== null;
				return;
			case 'meeting':
				thing.known = (thing as ThingTypes['meeting']).planned !== null;
				return;
			case 'member':
				thing.known = (thing as ThingTypes['member']).joined !== null;
				return;
			case 'room':
				thing.known = (thing as ThingTypes['room']).name !== '';
				return;
			case 'club':
				thing.known = (thing as ThingTypes['club']).opened !== null;
		}
	}

	#rankOf = (entry: EntryId): string => {
		for (const item of this.#rankSource) if (item.entry.id === entry) return item.rank;
		return '';
	};
	#rankSource: readonly Item[] = [];

	#runBags(dirty: ReadonlySet<ThingId>, groups: Set<ThingId>, exchanges: Set<ThingId>): void {
		const touched = [...dirty].filter((id) => this.#singleBags.has(id) || this.#typesOf(id).has('bag'));
		if (touched.length === 0) return;
		const affected = new Set<ThingId>();
		for (const id of touched) {
			for (const peer of this.#peers(id)) affected.add(peer);
			this.#dropNumber(id);
			const bag = this.#derive('bag', [id]);
			this.#rankSource = this.itemsOf(id);
			if (bag) {
				this.#singleBags.set(id, finishBag(bag, this.#rankOf));
				this.#indexNumber(bag);
			} else this.#singleBags.delete(id);
		}
		const work = [...affected, ...touched];
		const all = new Set<ThingId>();
		for (let id = work.pop(); id !== undefined; id = work.pop()) {
			if (all.has(id)) continue;
			all.add(id);
			work.push(...this.#peers(id), ...this.#paired(id));
		}
		this.#forgetBags(all, groups, exchanges);
		this.#joinBags(all, groups, exchanges);
	}

	#forgetBags(ids: ReadonlySet<ThingId>, groups: Set<ThingId>, exchanges: Set<ThingId>): void {
		for (const id of ids) {
			const bag = this.#maps.bag.get(id);
			if (!bag) continue;
			noteDependents(bag, groups, exchanges);
			for (const arrival of bag.arrivals) {
				const stands = this.#joinedGroups.get(arrival.group);
				if (stands) groups.add(stands);
				this.#joinedGroups.delete(arrival.group);
			}
			this.#maps.bag.delete(id);
		}
	}

	#joinBags(ids: ReadonlySet<ThingId>, groups: Set<ThingId>, exchanges: Set<ThingId>): void {
		const singles = [...ids].sort().flatMap((id) => this.#singleBags.get(id) ?? []);
		for (const cluster of bagClusters(singles, this.#pairWords(ids))) {
			const parts = cluster.ids.flatMap((id) => this.#singleBags.get(id) ?? []);
			this.#rankSource = cluster.ids.flatMap((id) => this.itemsOf(id));
			const bag = finishBag(mergeBags(parts, this.#rankOf), this.#rankOf);
			bag.numberClash = [...cluster.clash];
			for (const id of cluster.ids) this.#maps.bag.set(id, bag);
			this.#joinArrivals(bag);
			noteDependents(bag, groups, exchanges);
		}
	}

	/** Two arrivals of one bag in one room are one group: the first told stands for both. */
	#joinArrivals(bag: Bag): void {
		const first = new Map<ThingId, ThingId>();
		for (const arrival of bag.arrivals) {
			const stands = first.get(arrival.room);
			if (stands === undefined) first.set(arrival.room, arrival.group);
			else if (stands !== arrival.group) this.#joinedGroups.set(arrival.group, stands);
		}
	}

	#peers(id: ThingId): ThingId[] {
		const number = this.#singleBags.get(id)?.number;
		return number ? [...(this.#bagsByNumber.get(number) ?? [])] : [];
	}

	#paired(id: ThingId): ThingId[] {
		return this.itemsOf(id)
			.filter((item) => isPairKind(item) && item.verdict.name === 'counts')
			.flatMap((item) => (item.body as { bags: ThingId[] }).bags);
	}

	#pairWords(ids: ReadonlySet<ThingId>): PairWord[] {
		const items = new Set([...ids].flatMap((id) => this.itemsOf(id).filter(isPairKind)));
		const counting = [...items].filter(
			(item) => item.verdict.name === 'counts' && !this.#corrections.isReplaced(item)
		);
		counting.sort((a, b) => (a.rank < b.rank ? -1 : 1));
		const last = new Map<string, PairWord>();
		for (const item of counting) {
			const bags = [...(item.body as { bags: ThingId[] }).bags].sort();
			bags.forEach((a, i) => {
				for (const b of bags.slice(i + 1))
					last.set(`${a} ${b}`, { a, b, one: item.entry.kind === 'bag/joined' });
			});
		}
		return [...last.keys()].sort().map((key) => last.get(key) as PairWord);
	}

	#indexNumber(bag: Bag): void {
		if (!bag.number) return;
		const same = this.#bagsByNumber.get(bag.number);
		if (same) same.add(bag.id);
		else this.#bagsByNumber.set(bag.number, new Set([bag.id]));
	}

	#dropNumber(id: ThingId): void {
		const number = this.#singleBags.get(id)?.number;
		if (number) this.#bagsByNumber.get(number)?.delete(id);
	}

	#deriveGroup(id: ThingId): void {
		const joined = [...this.#joinedGroups].filter(([, stands]) => stands === id).map(([other]) => other);
		const ids = [id, ...joined.sort()];
		const group = this.#derive('group', ids);
		if (!group) {
			this.#maps.group.delete(id);
			return;
		}
		const bags = new Set(group.bags.flatMap((bag) => this.#maps.bag.get(bag) ?? []));
		group.bags = [...new Set([...bags].map((bag) => bag.id))];
		group.spawns = [...new Set(group.spawns)];
		finishGroup(group, ids, [...bags]);
		for (const one of ids) this.#maps.group.set(one, group);
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

function isPairKind(item: Item): boolean {
	return item.entry.kind === 'bag/joined' || item.entry.kind === 'bag/parted';
}

function noteDependents(bag: Bag, groups: Set<ThingId>, exchanges: Set<ThingId>): void {
	for (const statement of bag.statements)
		for (const content of statement.contents) if (content.group) groups.add(content.group);
	for (const arrival of bag.arrivals) groups.add(arrival.group);
	if (bag.exchange) exchanges.add(bag.exchange);
}

/** One bag out of the single bags that stand for it. */
function mergeBags(parts: readonly Bag[], rankOf: (entry: EntryId) => string): Bag {
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
