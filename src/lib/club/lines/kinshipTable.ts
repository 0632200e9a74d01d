import { kinshipWords, type KinshipWords } from '#genetics/words/kinshipWords.ts';
import { drawnBetween, drawnDifferent } from '#pedigree/figures/weighing.ts';
import type { KinshipOfGroups } from '#pedigree/kinshipOfGroups.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { Certainty, Fish } from '#records/state.ts';
import type { Question } from '../question.ts';
import { isStanding } from './holdings.ts';

export interface KinshipCell {
	readonly step: KinshipWords['step'];
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
}

export interface KinshipTable {
	readonly line: ThingId;
	readonly name: string;
	readonly code: string;
	/** Living groups, room by room, oldest first in each. */
	readonly groups: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly room: ThingId | null;
		readonly roomName: string;
		readonly fish: Fish;
		readonly certainty: Certainty | 'not known';
		/** First possible moment, ms since 1970; null = not known. */
		readonly at: number | null;
	}[];
	/**
	 * Row i has i + 1 cells: with the groups before it, one fish of each; last, two different fish of its own, or of a
	 * single fish that fish with itself.
	 */
	readonly rows: readonly (readonly KinshipCell[])[];
}

/** How related are all living groups of a line with each other, and what could it be? Null when it is not heard of. */
export const kinshipTable: Question<{ line: ThingId }, KinshipTable | null> = (state, { line: id }) => {
	const line = state.lines.get(id);
	if (!line) return null;
	const kinship = lineKinships.of(state, line.id);
	const names = namesOf(state, null);
	const groups = [...new Set(state.groups.values())]
		.filter((group) => group.line === line.id && isStanding(group) && kinship.knows(group.id))
		.map((group) => ({
			...{ id: group.id, name: names.group(group.id), room: group.room },
			roomName: group.room ? names.room(group.room) : '',
			...{ fish: group.now.fish, certainty: group.now.certainty, at: group.started?.when.first ?? null }
		}))
		.sort(
			(a, b) =>
				a.roomName.localeCompare(b.roomName, 'en') || (a.at ?? 0) - (b.at ?? 0) || (a.id < b.id ? -1 : 1)
		);
	const fish = groups.map((group) => kinship.fishOf([group.id]));
	/** Whether each group has a forebear of open origin, found when a cell asks. */
	const isOpen = groups.map((): boolean | null => null);
	const open = (i: number) => (isOpen[i] ??= hasOpenOrigin(kinship, [groups[i]!.id]));
	const rows = fish.map((these, i) =>
		fish.slice(0, i + 1).map((those, j): KinshipCell => {
			const weighing = i === j ? drawnDifferent(these) : drawnBetween(these, those);
			const of = kinship.bounded(weighing);
			const unknown = of.greatest <= 0 && (open(i) || open(j));
			return { ...of, step: kinshipWords(unknown ? null : of.expected).step };
		})
	);
	return { line: line.id, name: line.name, code: line.code, groups, rows };
};

/** Whether a forebear came from where nobody said. */
export function hasOpenOrigin(kinship: KinshipOfGroups, groups: readonly ThingId[]): boolean {
	return groups.some((group) =>
		[...kinship.forebearsOf(group).keys()].some((one) => kinship.events.unknownOrigin.has(one))
	);
}
