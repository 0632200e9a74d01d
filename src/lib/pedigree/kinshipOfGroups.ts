import type { ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';
import { openWords, type FigureWithWhy } from './figureWords.ts';
import { drawnBetween, drawnDifferent, type Weighing } from './figures/weighing.ts';
import type { GrownTable } from './goneOn.ts';
import { LineKinship } from './lineKinship.ts';

/**
 * Kinship of groups of one line, in the terms that questions use: groups and rooms instead of units.
 *
 * Each figure has its range over all that the record leaves open and says why, see LineKinship.
 *
 * @param earlier a table of the line to go on from
 */
export class KinshipOfGroups extends LineKinship {
	readonly #state: ClubState;

	constructor(state: ClubState, line: ThingId, earlier: GrownTable | null = null) {
		super(state, line, earlier);
		this.#state = state;
	}

	knows(group: ThingId): boolean {
		return (this.events.units.get(group)?.length ?? 0) > 0;
	}

	/** One fish of each group, groups on one side taken together: the inbreeding of their young. */
	between(these: readonly ThingId[], those: readonly ThingId[]): FigureWithWhy {
		const ours = this.fishOf(these);
		const theirs = this.fishOf(those).filter(({ unit }) => !ours.some((one) => one.unit === unit));
		return this.withWhy(theirs.length ? drawnBetween(ours, theirs) : drawnDifferent(ours));
	}

	/** Two different fish of these groups together. */
	within(groups: readonly ThingId[]): FigureWithWhy {
		return this.withWhy(drawnDifferent(this.fishOf(groups)));
	}

	withWhy(weighing: Weighing): FigureWithWhy {
		const figure = this.figure(weighing);
		const [first] = figure.open;
		return { ...figure, why: first ? openWords(this.#state, this.events, first) : '' };
	}

	/** Groups from which a group's fish come, itself included, with the least number of steps back. */
	forebearsOf(group: ThingId): Map<ThingId, number> {
		const steps = new Map<ThingId, number>([[group, 0]]);
		for (const [id, step] of steps)
			for (const from of this.events.cameFrom.get(id) ?? []) if (!steps.has(from)) steps.set(from, step + 1);
		return steps;
	}
}
