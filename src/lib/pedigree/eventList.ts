/** The events of a line while they are gathered, with how many fish each unit holds by then. */
import type { FoundersEvent, GroupEvent, UnitId } from '#genetics/groups/event.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { ThingId } from '#records/entry.ts';
import type { Fish } from '#records/state.ts';

export const sexes = ['males', 'females', 'unsexed'] as const;
export type Sex = (typeof sexes)[number];
/** Units of one group: its males, its females, those that nobody has sexed. */
export type Parts = { [S in Sex]?: UnitId };

/** A group that nobody counted is taken to be a small shoal; own choice, and said so. */
export const shoal: Fish = { males: 0, females: 0, unsexed: 6 };

export class EventList {
	readonly events: GroupEvent[] = [];
	/** When each event was, by its place; ms since 1970. */
	readonly times: number[] = [];
	/** The spawn behind an event, by its place. */
	readonly spawnOf = new Map<number, ThingId>();
	readonly groupOf = new Map<UnitId, ThingId>();
	/** The time of what is gathered now. */
	now = 0;
	#count = new Map<UnitId, number>();
	/** Where the fish of an emptied unit went. */
	#wentTo = new Map<UnitId, UnitId>();
	/** Where it was said that none are left of a unit. */
	#endedAt = new Map<UnitId, number>();
	/** Numbers are given group by group, so that what happens to one group renames nothing of another. */
	#taken = new Map<ThingId, number>();

	push(event: GroupEvent): number {
		this.times.push(this.now);
		return this.events.push(event) - 1;
	}

	fresh(group: ThingId, sex: Sex | 'outside'): UnitId {
		const number = this.#taken.get(group) ?? 0;
		this.#taken.set(group, number + 1);
		const unit = `${group}/${number}/${sex}`;
		this.groupOf.set(unit, group);
		return unit;
	}

	/** Names a unit for each sex that is there. */
	unitsFor(group: ThingId, fish: Fish): { unit: UnitId; sex: Sex; count: number }[] {
		const there = howManyFish(fish) > 0 ? fish : shoal;
		return sexes
			.filter((sex) => there[sex] > 0)
			.map((sex) => ({ unit: this.fresh(group, sex), sex, count: there[sex] }));
	}

	begin(unit: UnitId, count: number): void {
		this.#count.set(unit, count);
	}

	/** Fish of no known parents; those of one group have this kinship with each other, and those others as told. */
	founders(
		group: ThingId,
		fish: Fish,
		within: number,
		others: NonNullable<FoundersEvent['related']> = [],
		assumed = false
	): Parts {
		const units = this.unitsFor(group, fish);
		units.forEach(({ unit, count }, i) => {
			const own = units.slice(0, i).map((earlier) => ({ unit: earlier.unit, kinship: within }));
			this.push({
				kind: 'founders',
				unit,
				count,
				within,
				related: [...own, ...others],
				...(assumed ? { assumed } : {})
			});
			this.begin(unit, count);
		});
		return partsOf(units);
	}

	/** From now on the unit has so many fish: deaths, sales and fish missed before, all taken as by chance. */
	setCount(unit: UnitId, count: number): void {
		if (count < 1 || this.#count.get(unit) === count || this.#wentTo.has(unit)) return;
		this.push({ kind: 'count', unit, count });
		this.#count.set(unit, count);
	}

	/**
	 * Fish leave a unit, and so many stay; of one that all have left, they leave where those went. What is left is
	 * said, since deaths and fish missed before show only in it.
	 */
	split(from: UnitId, unit: UnitId, count: number, left: number): UnitId {
		const gone = this.#wentTo.get(from);
		if (gone !== undefined) return this.split(gone, unit, count, Math.max(0, this.countOf(gone) - count));
		this.#notEnded(from);
		this.setCount(from, count + left);
		this.push({ kind: 'split', unit, from, count });
		if (left > 0) this.#count.set(from, left);
		else this.#wentTo.set(from, unit);
		this.#count.set(unit, count);
		return unit;
	}

	/** None of these fish are left; those that come to their group later are others. */
	end(unit: UnitId): void {
		if (this.#wentTo.has(unit) || this.#endedAt.has(unit)) return;
		this.#endedAt.set(unit, this.push({ kind: 'count', unit, count: 0 }));
	}

	/** More leave than the record knew of: then one at least was left. */
	#notEnded(unit: UnitId): void {
		const place = this.#endedAt.get(unit);
		if (place === undefined) return;
		this.#endedAt.delete(unit);
		this.events[place] = { kind: 'count', unit, count: 1 };
		this.#count.set(unit, 1);
	}

	merge(of: readonly UnitId[], unit: UnitId): UnitId {
		const standing = [...new Set(of.map((one) => this.standing(one)))];
		if (standing.length === 1 && standing[0]) return standing[0];
		this.push({ kind: 'merge', unit, of: standing });
		this.#count.set(
			unit,
			standing.reduce((sum, one) => sum + (this.#count.get(one) ?? 0), 0)
		);
		for (const one of standing) this.#wentTo.set(one, unit);
		return unit;
	}

	/** One unit can be father and mother only when two fish are in it. */
	atLeastTwo(unit: UnitId): void {
		if ((this.#count.get(unit) ?? 0) > 1) return;
		this.#notEnded(unit);
		this.setCount(unit, 2);
	}
	countOf(unit: UnitId): number {
		return this.#count.get(unit) ?? 0;
	}
	isEmptied(unit: UnitId): boolean {
		return this.#wentTo.has(unit);
	}
	standing(unit: UnitId): UnitId {
		const gone = this.#wentTo.get(unit);
		return gone === undefined ? unit : this.standing(gone);
	}
}

export function partsOf(units: readonly { readonly unit: UnitId; readonly sex: Sex }[]): Parts {
	return Object.fromEntries(units.map(({ unit, sex }) => [sex, unit]));
}

/** The unit that a fish of this sex is taken from. */
export function partFor(parts: Parts, sex: Sex): UnitId | undefined {
	return parts[sex] ?? parts.unsexed ?? parts.males ?? parts.females;
}
