import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { Bag, ClubState, Fish, Group } from '#records/state.ts';
import { EventList, partsOf, sexes, shoal, type Parts } from './eventList.ts';
import { fishAt } from './fishAt.ts';
import { addBrood } from './addBrood.ts';

/** Something that the record leaves open, beside the parents of broods, and what it could be. */
export interface Doubt {
	readonly group: ThingId;
	readonly about: 'founders' | 'bag';
	/** How many ways there are; 0 is the one that stands in the events. */
	readonly ways: number;
}

export interface LineEvents {
	readonly events: readonly GroupEvent[];
	/** Units that stand for a group's fish now, by group. */
	readonly units: ReadonlyMap<ThingId, readonly UnitId[]>;
	readonly spawnOf: ReadonlyMap<number, ThingId>;
	readonly doubts: readonly Doubt[];
	/** Groups that nobody knows the origin of: figures with other such groups are guesses. */
	readonly unknownOrigin: ReadonlySet<ThingId>;
	/** Groups that a group's fish came from, one step back. */
	readonly cameFrom: ReadonlyMap<ThingId, ReadonlySet<ThingId>>;
}

const oneBrood = 0.25;
const unrelated = 0;

/**
 * Line events: what happened to the fish of a line, as events for the recursion of group kinship?
 *
 * Males, females and fish not sexed of a group are units with a common origin. Founders said to be unrelated have
 * kinship 0 and those of one brood 1/4; where nobody said, 1/4 is the careful guess and 0 the other way, and groups
 * of unknown origin are taken as unrelated to all others, which `unknownOrigin` tells. Fish of a bag come from the
 * groups in it; if these were not said, from the giver's largest group of the line, with its others as other ways.
 * Numbers are those said for the time of each spawn. The same state gives the same events, whatever the order of
 * arrival: all is sorted by time and id, and parents are put first where dates contradict each other.
 * Source: rules G1 to G7 as in `groupKinship`; what to assume is our own choice.
 *
 * @param chosen for a doubt of a group, another way than 0
 */
export function lineEvents(
	state: ClubState,
	line: ThingId,
	chosen: ReadonlyMap<ThingId, number> = new Map()
): LineEvents {
	return new Gathering(state, line, chosen).run();
}

export class Gathering {
	readonly list = new EventList();
	readonly parts = new Map<ThingId, Parts>();
	readonly #doubts: Doubt[] = [];
	readonly #unknownOrigin = new Set<ThingId>();
	readonly #cameFrom = new Map<ThingId, Set<ThingId>>();
	readonly #underWay = new Set<ThingId>();
	readonly #done = new Set<ThingId>();
	readonly state: ClubState;
	readonly #line: ThingId;
	readonly #chosen: ReadonlyMap<ThingId, number>;

	constructor(state: ClubState, line: ThingId, chosen: ReadonlyMap<ThingId, number>) {
		this.state = state;
		this.#line = line;
		this.#chosen = chosen;
	}

	run(): LineEvents {
		const groups = [...new Set(this.state.groups.values())].filter((group) => group.line === this.#line);
		const steps: { readonly at: number; readonly id: string; run(): void }[] = [];
		for (const group of groups) {
			steps.push({ at: group.started?.when.last ?? 0, id: group.id, run: () => void this.ensure(group.id) });
			for (const change of group.changes) {
				const { other } = change;
				// The fish that a group began with are told by its origin; what follows is added to it.
				if (change.why !== 'moved' || !other || howManyFish(change.fish) <= 0) continue;
				steps.push({
					at: change.when.last,
					id: change.entry,
					run: () => this.#join(group, other, change.fish, change.when.last)
				});
			}
		}
		for (const spawn of this.state.spawns.values())
			if (spawn.line === this.#line && spawn.brood)
				steps.push({
					at: spawn.seen?.when.last ?? 0,
					id: spawn.id,
					run: () => void this.ensure(spawn.brood ?? '')
				});
		steps.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
		for (const step of steps) step.run();
		const units = new Map<ThingId, readonly UnitId[]>();
		for (const group of groups) units.set(group.id, this.#unitsNow(group));
		return {
			events: this.list.events,
			units,
			spawnOf: this.list.spawnOf,
			doubts: this.#doubts,
			unknownOrigin: this.#unknownOrigin,
			cameFrom: this.#cameFrom
		};
	}

	/** Makes a group's fish, after those that they come from. A circle of origins ends in "not known". */
	ensure(id: ThingId): Parts {
		const group = this.state.groups.get(id);
		const key = group?.id ?? id;
		const there = this.parts.get(key);
		if (there) return there;
		if (this.#underWay.has(key)) return this.#outsiders(key, shoal);
		this.#underWay.add(key);
		const parts = group ? this.#make(group) : this.#outsiders(key, shoal);
		this.#underWay.delete(key);
		const made = this.parts.get(key) ?? parts;
		this.parts.set(key, made);
		return made;
	}

	/** Fish at a time; a shoal where nobody counted. */
	fishOf(group: Group, at: number): Fish {
		const fish = fishAt(group, at);
		return fish && howManyFish(fish) > 0
			? fish
			: (group.counts.find((count) => howManyFish(count.fish) > 0)?.fish ?? shoal);
	}

	cameFrom(group: ThingId, from: ThingId): void {
		const before = this.#cameFrom.get(group);
		if (before) before.add(from);
		else this.#cameFrom.set(group, new Set([from]));
	}

	#make(group: Group): Parts {
		const { origin } = group;
		const at = group.started?.when.last ?? 0;
		const fish = this.fishOf(group, at);
		if (origin.from === 'brood') {
			const spawn = this.state.spawns.get(origin.spawn);
			if (spawn?.seen) return addBrood(this, group, spawn, fish);
		}
		if (origin.from === 'bag') {
			const bag = this.state.bags.get(origin.bag);
			const sources = bag ? this.#sourcesOf(bag, group) : [];
			if (sources.length) return this.#take(group, sources, fish, at);
		}
		if (origin.from === 'group') {
			const sources = origin.groups
				.map((id) => this.state.groups.get(id)?.id ?? id)
				.filter((id) => id !== group.id);
			if (sources.length) return this.#take(group, sources, fish, at);
		}
		if (origin.from === 'founders' && origin.related !== 'not known')
			return this.list.founders(group.id, fish, origin.related === 'one brood' ? oneBrood : unrelated);
		return this.#outsiders(group.id, fish);
	}

	/** Fish that nobody knows the origin of: brothers and sisters as the careful guess, unrelated as the other way. */
	#outsiders(id: ThingId, fish: Fish): Parts {
		this.#unknownOrigin.add(id);
		this.#doubt(id, 'founders', 2);
		const parts = this.list.founders(id, fish, this.#chosen.get(id) === 1 ? unrelated : oneBrood);
		this.parts.set(id, parts);
		return parts;
	}

	#sourcesOf(bag: Bag, arrived: Group): ThingId[] {
		const said = bag.contents.flatMap((content) =>
			content.group ? [this.state.groups.get(content.group)?.id ?? content.group] : []
		);
		if (said.length || !bag.fromRoom) return [...new Set(said)].filter((id) => id !== arrived.id);
		const at = bag.baggedAt?.last ?? Infinity;
		const possible = [...new Set(this.state.groups.values())]
			.filter((group) => group.id !== arrived.id && group.line === this.#line && group.room === bag.fromRoom)
			.filter((group) => (group.started?.when.first ?? 0) <= at && group.origin.from !== 'not known')
			.map((group) => ({ id: group.id, fish: howManyFish(fishAt(group, at) ?? shoal) }))
			.sort((a, b) => b.fish - a.fish || (a.id < b.id ? -1 : 1));
		if (possible.length > 1) this.#doubt(arrived.id, 'bag', possible.length);
		const picked = possible[this.#chosen.get(arrived.id) ?? 0] ?? possible[0];
		return picked ? [picked.id] : [];
	}

	/** Fish come from one or more groups; from several, in equal parts, since which came from which is not known. */
	#take(group: Group, sources: readonly ThingId[], fish: Fish, at: number): Parts {
		const units = this.list.unitsFor(group.id, fish).map((part) => {
			const from = sources.slice(0, Math.max(1, part.count));
			const shares = from.map((source, i) => {
				this.cameFrom(group.id, source);
				const count = Math.floor(part.count / from.length) + (i < part.count % from.length ? 1 : 0);
				const unit = from.length === 1 ? part.unit : this.list.fresh(group.id, part.sex);
				return this.#split(source, part.sex, unit, count, at);
			});
			const unit = shares.length === 1 && shares[0] ? shares[0] : this.list.merge(shares, part.unit);
			return { unit, sex: part.sex };
		});
		return partsOf(units);
	}

	#split(source: ThingId, sex: (typeof sexes)[number], unit: UnitId, count: number, at: number): UnitId {
		const parts = this.sexed(source, at);
		const from = parts[sex] ?? parts.unsexed ?? parts.males ?? parts.females;
		if (from === undefined) throw new RangeError(`lineEvents requires fish in ${source}`);
		return this.list.split(from, unit, count);
	}

	/** Fish of another group are put to this one later on. */
	#join(group: Group, other: ThingId, fish: Fish, at: number): void {
		const from = this.state.groups.get(other)?.id ?? other;
		if (from === group.id || this.#done.has(`${group.id}|${from}|${at}`)) return;
		this.#done.add(`${group.id}|${from}|${at}`);
		const before = { ...this.ensure(group.id) };
		this.cameFrom(group.id, from);
		for (const sex of sexes) {
			if (fish[sex] <= 0) continue;
			const moved = this.#split(from, sex, this.list.fresh(group.id, sex), fish[sex], at);
			const there = before[sex];
			before[sex] =
				there === undefined ? moved : this.list.merge([there, moved], this.list.fresh(group.id, sex));
		}
		this.parts.set(group.id, before);
	}

	/** Units of a group with the numbers of that time; fish sexed since are told apart from those that are not. */
	sexed(id: ThingId, at: number): Parts {
		const parts = { ...this.ensure(id) };
		const group = this.state.groups.get(id);
		const fish = group ? fishAt(group, at) : null;
		if (!group || !fish || howManyFish(fish) === 0) return parts;
		for (const sex of ['males', 'females'] as const) {
			const pool = parts.unsexed;
			if (fish[sex] === 0 || parts[sex] !== undefined) continue;
			if (pool === undefined || this.list.isEmptied(pool)) continue;
			parts[sex] = this.list.split(pool, this.list.fresh(group.id, sex), fish[sex]);
		}
		for (const sex of sexes) if (parts[sex] !== undefined) this.list.setCount(parts[sex], fish[sex]);
		this.parts.set(group.id, parts);
		return parts;
	}

	#unitsNow(group: Group): UnitId[] {
		const parts = this.sexed(group.id, Infinity);
		const now = group.now.fish;
		const all = sexes.flatMap((sex) => (parts[sex] === undefined ? [] : [{ sex, unit: parts[sex] }]));
		const there = all.filter(({ sex, unit }) => now[sex] > 0 && !this.list.isEmptied(unit));
		const standing = all.filter(({ unit }) => !this.list.isEmptied(unit));
		return (there.length ? there : standing.length ? standing : all.slice(0, 1)).map(({ unit }) => unit);
	}

	#doubt(group: ThingId, about: Doubt['about'], ways: number): void {
		if (!this.#doubts.some((doubt) => doubt.group === group)) this.#doubts.push({ group, about, ways });
	}
}
