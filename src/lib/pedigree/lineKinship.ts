import type { UnitId } from '#genetics/groups/event.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';
import { boundsOf, type Bounds } from './figures/boundsOf.ts';
import { recipesOf, type Recipe } from './figures/recipes.ts';
import { tracedBack, type OpenThing, type WidenedUnit } from './figures/tracedBack.ts';
import { countedUnits, weighed, type Counted, type Weighing } from './figures/weighing.ts';
import { goneOn, type GrownTable } from './goneOn.ts';
import { lineEvents, type LineEvents } from './lineEvents.ts';

/** A figure, what it could be, and what that hangs on. */
export interface Figure {
	/** With the default weights. */
	readonly expected: number;
	/** Least and greatest over everything that the record leaves open. */
	readonly least: number;
	readonly greatest: number;
	/** True: the least and the greatest can both be reached. False: the figure lies between them, perhaps closer. */
	readonly exact: boolean;
	/** Least and greatest if one open thing alone were known, the others as expected. */
	readonly oneKnown: { readonly least: number; readonly greatest: number };
	/** What stretches it most comes first. */
	readonly open: readonly FigureOpen[];
}
export interface FigureOpen extends OpenThing {
	readonly spawn: ThingId | null;
	/** The brood, or the group whose origin is open. */
	readonly group: ThingId | null;
}

/** Sums end a little beside the fraction that is meant. */
const rounding = 1e-9;

/**
 * Kinship of a line: its events, its table, and figures read from them with their ranges.
 *
 * The table is built once, going on from an earlier one where events agree; bounds and recipes when first asked for.
 */
export class LineKinship {
	readonly line: ThingId;
	readonly events: LineEvents;
	readonly grown: GrownTable;
	/** Units whose fish may have come from elsewhere, by number. */
	readonly widened: ReadonlyMap<number, WidenedUnit>;
	#recipes: readonly Recipe[] | null = null;
	#bounds: Bounds | null = null;

	constructor(state: ClubState, line: ThingId, earlier: GrownTable | null = null) {
		this.line = line;
		this.events = lineEvents(state, line);
		this.grown = goneOn(this.events.events, earlier);
		const index = this.table.index;
		this.widened = new Map(
			[...this.events.widened].map(([unit, { orOf = [], orOutside = false }]) => [
				index.get(unit)!,
				{ orOf: orOf.map((one) => index.get(one)!).filter((one) => one < index.get(unit)!), orOutside }
			])
		);
	}

	get table(): GroupKinship {
		return this.grown.table;
	}
	get recipes(): readonly Recipe[] {
		return (this.#recipes ??= recipesOf(this.events.events, this.table.index));
	}
	get bounds(): Bounds {
		return (this.#bounds ??= boundsOf(this.table, this.recipes, this.widened));
	}

	/** Units of these groups by number, with their fish of now. */
	fishOf(groups: readonly ThingId[]): Counted[] {
		return this.countedOf(groups.flatMap((group) => this.events.units.get(group) ?? []));
	}
	countedOf(units: readonly UnitId[]): Counted[] {
		return countedUnits(this.table, units, this.events.fishNow);
	}

	/** A figure between its bounds, without what it hangs on. */
	bounded(weighing: Weighing): Pick<Figure, 'expected' | 'least' | 'greatest'> {
		const expected = share(weighed(this.table, weighing));
		return {
			expected,
			least: Math.min(expected, share(weighed(this.bounds.least, weighing))),
			greatest: Math.max(expected, share(weighed(this.bounds.greatest, weighing)))
		};
	}

	/** A figure with its range and the open things behind it. */
	figure(weighing: Weighing): Figure {
		const expected = share(weighed(this.table, weighing));
		const open = tracedBack(this.table, this.recipes, weighing, expected, this.widened)
			.filter(({ least, greatest }) => greatest - least > rounding)
			.map((thing) => ({
				...thing,
				least: share(thing.least),
				greatest: share(thing.greatest),
				...this.#about(thing.event)
			}))
			.sort((a, b) => b.greatest - b.least - (a.greatest - a.least) || a.event - b.event);
		const oneKnown = {
			least: Math.min(expected, ...open.map((thing) => thing.least)),
			greatest: Math.max(expected, ...open.map((thing) => thing.greatest))
		};
		if (open.length <= 1) return { expected, ...oneKnown, exact: true, oneKnown, open };
		const { least, greatest } = this.bounded(weighing);
		const exact = oneKnown.least - least < rounding && greatest - oneKnown.greatest < rounding;
		return {
			expected,
			least: Math.min(least, oneKnown.least),
			greatest: Math.max(greatest, oneKnown.greatest),
			exact,
			oneKnown,
			open
		};
	}

	#about(event: number): Pick<FigureOpen, 'spawn' | 'group'> {
		const told = this.events.events[event];
		const unit =
			told?.kind === 'spawn' ? told.young[0]?.unit : told && 'unit' in told ? told.unit : undefined;
		return {
			spawn: this.events.spawnOf.get(event) ?? null,
			group: unit === undefined ? null : (this.events.groupOf.get(unit) ?? null)
		};
	}
}

/** Sums may end a rounding below 0 or above 1. */
function share(value: number): number {
	return Math.min(1, Math.max(0, value));
}
