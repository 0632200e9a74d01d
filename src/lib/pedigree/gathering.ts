/** Gathers the events of a line from the club state: the work behind `lineEvents`, and longer than one file should be
 * because each step looks at what the others have made of the fish so far. */
import type { FoundersEvent, UnitId } from '#genetics/groups/event.ts';
import type { EntryId, ThingId } from '#records/entry.ts';
import { howManyFish, noFish } from '#records/fishCount.ts';
import type { ClubState, CountStatement, Fish, Group } from '#records/state.ts';
import { addBrood } from './addBrood.ts';
import { bagSources, sharedOut, weightsOf, type BagSource } from './bagSources.ts';
import { EventList, partFor, partsOf, sexes, shoal, type Parts, type Sex } from './eventList.ts';
import { fishAt } from './fishAt.ts';
import { isFromOneBrood, sourceName, sourceOf } from './foundersSource.ts';
import type { Doubt, LineEvents, Widened } from './gathered.ts';
import { leavingTogether } from './leavingTogether.ts';

const oneBrood = 0.25;
const unrelated = 0;

interface Step {
	readonly at: number;
	readonly id: string;
	run(): void;
}
interface Founders {
	readonly group: ThingId;
	readonly within: number;
	readonly units: readonly UnitId[];
}

export class Gathering {
	readonly list = new EventList();
	readonly state: ClubState;
	readonly outsideMales = new Map<ThingId, UnitId>();
	readonly #line: ThingId;
	readonly #groups: readonly Group[];
	readonly #parts = new Map<ThingId, Parts>();
	readonly #doubts: Doubt[] = [];
	readonly #widened = new Map<UnitId, Widened>();
	readonly #unknownOrigin = new Set<ThingId>();
	readonly #sameSource = new Map<ThingId, ThingId[]>();
	readonly #bySource = new Map<string, Founders[]>();
	readonly #cameFrom = new Map<ThingId, Set<ThingId>>();
	readonly #surplus = new Map<ThingId, { more: number; entry: EntryId }>();
	readonly #underWay = new Set<ThingId>();
	readonly #joined = new Set<string>();

	constructor(state: ClubState, line: ThingId) {
		this.state = state;
		this.#line = line;
		this.#groups = [...new Set(state.groups.values())]
			.filter((group) => group.line === line)
			.sort((a, b) => (a.id < b.id ? -1 : 1));
	}

	run(): LineEvents {
		const steps = this.#groups.flatMap((group) => this.#stepsOf(group));
		for (const spawn of this.state.spawns.values()) {
			const { brood } = spawn;
			if (spawn.line !== this.#line || !brood) continue;
			steps.push({ at: spawn.seen?.when.last ?? 0, id: spawn.id, run: () => void this.ensure(brood) });
		}
		steps.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
		for (const step of steps) {
			this.list.now = step.at;
			step.run();
		}
		const units = new Map<ThingId, readonly UnitId[]>();
		const fishNow = new Map<UnitId, number>();
		for (const group of this.#groups) units.set(group.id, this.#unitsNow(group, fishNow));
		return {
			...{ events: this.list.events, times: this.list.times, units, fishNow },
			...{ groupOf: this.list.groupOf, spawnOf: this.list.spawnOf },
			...{ doubts: this.#doubts, widened: this.#widened, unknownOrigin: this.#unknownOrigin },
			...{ sameSource: this.#sameSource, cameFrom: this.#cameFrom, surplus: this.#surplus }
		};
	}

	/** Makes a group's fish, after those that they come from. A circle of origins ends in "not known". */
	ensure(id: ThingId): Parts {
		const group = this.state.groups.get(id);
		const key = group?.id ?? id;
		const there = this.#parts.get(key);
		if (there) return there;
		if (this.#underWay.has(key)) return this.#outsiders(key, shoal);
		this.#underWay.add(key);
		const parts = group ? this.#make(group) : this.#outsiders(key, shoal);
		this.#underWay.delete(key);
		const made = this.#parts.get(key) ?? parts;
		this.#parts.set(key, made);
		return made;
	}

	cameFrom(group: ThingId, from: ThingId): void {
		const before = this.#cameFrom.get(group);
		if (before) before.add(from);
		else this.#cameFrom.set(group, new Set([from]));
	}

	/**
	 * Units of a group with the numbers of that time; fish sexed since are told apart from those that are not.
	 *
	 * @param coming fish that are counted by then, but are yet to be put to the others
	 */
	sexed(id: ThingId, at: number, coming: Fish = noFish): Parts {
		const parts = { ...this.ensure(id) };
		const group = this.state.groups.get(id);
		const there = group ? fishAt(group, at) : null;
		if (!group || !there) return parts;
		const fish = lessBy(there, coming);
		if (howManyFish(fish) > 0) this.#tellApart(group.id, parts, fish);
		// A unit that none are left of is not mixed with fish that come to the group after them.
		for (const sex of sexes)
			if (coming[sex] > 0 && fish[sex] === 0 && parts[sex] !== undefined) {
				this.list.end(parts[sex]);
				delete parts[sex];
			}
		this.#parts.set(group.id, parts);
		return parts;
	}

	#tellApart(group: ThingId, parts: Parts, fish: Fish): void {
		const pool = parts.unsexed;
		const fresh = (['males', 'females'] as const).filter((sex) => fish[sex] > 0 && parts[sex] === undefined);
		if (pool !== undefined && !this.list.isEmptied(pool)) {
			let left = fish.unsexed + fresh.reduce((sum, sex) => sum + fish[sex], 0);
			for (const sex of fresh) {
				left -= fish[sex];
				parts[sex] = this.list.split(pool, this.list.fresh(group, sex), fish[sex], left);
			}
		}
		for (const sex of sexes) if (parts[sex] !== undefined) this.list.setCount(parts[sex], fish[sex]);
	}

	#stepsOf(group: Group): Step[] {
		const started = group.started?.when.last ?? 0;
		const steps: Step[] = [{ at: this.#leftAt(group), id: group.id, run: () => void this.ensure(group.id) }];
		for (const { entry, when, fish, other, why } of group.changes) {
			if (howManyFish(fish) <= 0) continue;
			// The fish that a group began with are told by its origin; what follows is added to it.
			if (why === 'moved' && other)
				steps.push({ at: when.last, id: entry, run: () => this.#join(group, other, fish, when.last, entry) });
			if (why === 'added' && !other && when.last > started)
				steps.push({ at: when.last, id: entry, run: () => this.#addUnknown(group, fish, when.last) });
		}
		for (const count of group.counts)
			if (count.entry !== group.started?.entry)
				steps.push({ at: count.when.last, id: count.entry, run: () => this.#count(group, count) });
		for (const mix of group.mixes)
			if (mix.sort !== 'unknown male')
				steps.push({ at: mix.when.last, id: mix.entry, run: () => this.#mix(group, mix.when.last) });
		return steps;
	}

	/** When a group's fish left those that they come from: of a bag when it was packed, which may be days before. */
	#leftAt(group: Group): number {
		const started = group.started?.when.last ?? 0;
		const bagged =
			group.origin.from === 'bag' ? this.state.bags.get(group.origin.bag)?.baggedAt?.last : undefined;
		return Math.min(started, bagged ?? started);
	}

	#make(group: Group): Parts {
		const { origin } = group;
		const at = this.#leftAt(group);
		const fish = this.#fishOf(group, group.started?.when.last ?? 0);
		if (origin.from === 'brood') {
			const spawn = this.state.spawns.get(origin.spawn);
			if (spawn?.seen) return addBrood(this, group, spawn, fish);
		}
		if (origin.from === 'bag') {
			const bag = this.state.bags.get(origin.bag);
			if (bag) {
				const { said, possible } = bagSources(this.state, bag, this.#groups, group.id);
				if (said.length) return this.#take(group, said, fish, at);
				const [picked] = possible;
				if (picked !== undefined) return this.#takeOneOf(group, picked, possible, fish, at);
			}
		}
		if (origin.from === 'group') {
			const ids = origin.groups.map((id) => this.state.groups.get(id)?.id ?? id);
			const sources = [...new Set(ids)].filter((id) => id !== group.id).map((id) => this.#fishIn(id, at));
			if (sources.length) return this.#take(group, sources, fish, at);
		}
		if (origin.from === 'founders' && origin.related !== 'not known')
			return this.#founders(
				group,
				fish,
				origin.related === 'one brood' ? oneBrood : unrelated,
				origin.source
			);
		return this.#outsiders(group.id, fish, origin.from === 'founders' ? origin.source : '');
	}

	/** Fish at a time; a shoal where nobody counted. */
	#fishOf(group: Group, at: number): Fish {
		const fish = fishAt(group, at);
		return fish && howManyFish(fish) > 0
			? fish
			: (group.counts.find((count) => howManyFish(count.fish) > 0)?.fish ?? shoal);
	}

	#fishIn(id: ThingId, at: number): BagSource {
		const group = this.state.groups.get(id);
		return { group: id, fish: (group ? fishAt(group, at) : null) ?? noFish };
	}

	/** Fish that nobody knows the origin of: brothers and sisters as the careful guess, unrelated as the other way. */
	#outsiders(id: ThingId, fish: Fish, source = ''): Parts {
		this.#unknownOrigin.add(id);
		this.#doubt(id, 'founders');
		const group = this.state.groups.get(id);
		const parts = group
			? this.#founders(group, fish, oneBrood, source, true)
			: this.list.founders(id, fish, oneBrood, [], true);
		this.#parts.set(id, parts);
		return parts;
	}

	/** Founders of one source are taken to be as related as those of the less related group are among themselves. */
	#founders(group: Group, fish: Fish, within: number, source: string, assumed = false): Parts {
		const key = sourceName(source);
		const before = key === '' ? [] : (this.#bySource.get(key) ?? []);
		const relatives = before.filter((each) => Math.min(each.within, within) > 0);
		const others: NonNullable<FoundersEvent['related']> = relatives.flatMap((each) =>
			each.units.map((unit) => ({ unit, kinship: Math.min(each.within, within) }))
		);
		const parts = this.list.founders(group.id, fish, within, others, assumed || relatives.length > 0);
		if (relatives.length)
			this.#sameSource.set(
				group.id,
				relatives.map((each) => each.group)
			);
		if (key === '') return parts;
		this.#bySource.set(key, [...before, { group: group.id, within, units: Object.values(parts) }]);
		// Fish that come from there later are told of here, so that they are related to all that come from these.
		if (within > 0)
			for (const later of this.#groups)
				if (!this.#underWay.has(later.id) && sourceOf(later) === key && isFromOneBrood(later))
					this.ensure(later.id);
		return parts;
	}

	/** Fish come from one or more groups; from several, in the shares that were said, or those that were there. */
	#take(group: Group, sources: readonly BagSource[], fish: Fish, at: number): Parts {
		const units = this.list.unitsFor(group.id, fish);
		const given = sources.map((): Record<Sex, number> => ({ ...noFish }));
		for (const { sex, count } of units)
			sharedOut(count, weightsOf(sources, sex)).forEach((share, i) => (given[i]![sex] = share));
		const takings = sources.map((source, i) => leavingTogether(this, source.group, given[i]!, at));
		const taken = units.map((part) => {
			const giving = sources.flatMap((source, i) => {
				const count = given[i]![part.sex];
				return count > 0 ? [{ group: source.group, count, taking: takings[i]! }] : [];
			});
			const shares = giving.map((source) => {
				this.cameFrom(group.id, source.group);
				const unit = giving.length === 1 ? part.unit : this.list.fresh(group.id, part.sex);
				return source.taking(part.sex, unit);
			});
			const unit = shares.length === 1 && shares[0] ? shares[0] : this.list.merge(shares, part.unit);
			return { unit, sex: part.sex };
		});
		return partsOf(taken);
	}

	/** One group of several, it was not said which. */
	#takeOneOf(group: Group, picked: ThingId, possible: readonly ThingId[], fish: Fish, at: number): Parts {
		if (possible.length > 1) this.#doubt(group.id, 'bag');
		const others = possible.filter((id) => id !== picked).map((id) => this.ensure(id));
		const parts = this.#take(group, [{ group: picked, fish: noFish }], fish, at);
		for (const sex of sexes) {
			const unit = parts[sex];
			const orOf = others.flatMap((other) => partFor(other, sex) ?? []);
			if (unit !== undefined && orOf.length) this.#widened.set(unit, { orOf });
		}
		return parts;
	}

	/** Fish of another group are put to this one later on. */
	#join(group: Group, other: ThingId, fish: Fish, at: number, told: EntryId): void {
		const from = this.state.groups.get(other)?.id ?? other;
		if (from === group.id || this.#joined.has(told)) return;
		this.#joined.add(told);
		this.sexed(group.id, at, fish);
		this.cameFrom(group.id, from);
		const taken = leavingTogether(this, from, fish, at);
		for (const sex of sexes)
			if (fish[sex] > 0) this.#put(group, sex, taken(sex, this.list.fresh(group.id, sex)));
	}

	/** Fish were added and nobody said where they came from. */
	#addUnknown(group: Group, fish: Fish, at: number): void {
		this.sexed(group.id, at, fish);
		this.#unknownOrigin.add(group.id);
		const parts = this.list.founders(group.id, fish, oneBrood, [], true);
		for (const sex of sexes) {
			const unit = parts[sex];
			if (unit === undefined) continue;
			this.#put(group, sex, unit);
		}
	}

	#put(group: Group, sex: Sex, unit: UnitId): void {
		const parts = { ...this.ensure(group.id) };
		const there = parts[sex];
		parts[sex] =
			there === undefined || this.list.isEmptied(there)
				? unit
				: this.list.merge([there, unit], this.list.fresh(group.id, sex));
		this.#parts.set(group.id, parts);
	}

	/** A count tells the sexes apart; more fish than can be accounted for were missed before, or came from elsewhere. */
	#count(group: Group, count: CountStatement): void {
		const parts = this.ensure(group.id);
		const held = Object.values(parts).filter((unit) => !this.list.isEmptied(unit));
		const known = held.reduce((sum, unit) => sum + this.list.countOf(unit), 0);
		const more = howManyFish(count.fish) - known;
		const isGrown = group.origin.from !== 'brood' && group.origin.from !== 'founders';
		const sexedNow = this.sexed(group.id, count.when.last);
		if (count.certainty !== 'counted' || !isGrown || more <= 0 || held.length === 0) return;
		this.#surplus.set(group.id, { more, entry: count.entry });
		this.#doubt(group.id, 'surplus');
		this.#renew(group, sexedNow, { orOutside: true });
	}

	/** Strangers may be among the fish from now on: fish of this room's other groups, or of none in the record. */
	#mix(group: Group, at: number): void {
		const parts = this.sexed(group.id, at);
		this.#doubt(group.id, 'mix');
		const near = this.#groups.filter(
			(other) => other.id !== group.id && other.room === group.room && this.#parts.has(other.id)
		);
		const orOf = near.flatMap((other) => Object.values(this.ensure(other.id)));
		this.#renew(group, parts, { orOutside: true, orOf });
	}

	/** The same fish under a new name, of which something more is open from now on. */
	#renew(group: Group, parts: Parts, widened: Widened): void {
		const renewed = { ...parts };
		for (const sex of sexes) {
			const unit = parts[sex];
			if (unit === undefined || this.list.isEmptied(unit)) continue;
			const again = this.list.fresh(group.id, sex);
			renewed[sex] = this.list.split(unit, again, this.list.countOf(unit), 0);
			this.#widened.set(again, widened);
		}
		this.#parts.set(group.id, renewed);
	}

	#unitsNow(group: Group, fishNow: Map<UnitId, number>): UnitId[] {
		const parts = this.ensure(group.id);
		const now = group.now.fish;
		const all = sexes.flatMap((sex) => (parts[sex] === undefined ? [] : [{ sex, unit: parts[sex] }]));
		const standing = all.filter(({ unit }) => !this.list.isEmptied(unit));
		const there = standing.filter(({ sex }) => now[sex] > 0);
		const chosen = there.length ? there : standing.length ? standing : all.slice(0, 1);
		for (const { sex, unit } of chosen) fishNow.set(unit, there.length ? now[sex] : this.list.countOf(unit));
		return chosen.map(({ unit }) => unit);
	}

	#doubt(group: ThingId, about: Doubt['about']): void {
		if (!this.#doubts.some((doubt) => doubt.group === group && doubt.about === about))
			this.#doubts.push({ group, about });
	}
}

/** Fish without those; never below 0. */
function lessBy(fish: Fish, those: Fish): Fish {
	const less = (sex: Sex) => Math.max(0, fish[sex] - those[sex]);
	return { males: less('males'), females: less('females'), unsexed: less('unsexed') };
}
