import type { ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Fish, FishGroup, Line, LineKind } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { holdings } from './holdings.ts';
import { lineState, type LineStateSaid, type LineStateWord } from './lineState.ts';

export interface LineRow {
	readonly id: ThingId;
	readonly code: string;
	readonly name: string;
	readonly kind: LineKind;
	readonly fishGroup: FishGroup;
	readonly locality: string;
	readonly state: LineStateSaid;
	/** All rooms that hold it, confirmed or not. */
	readonly fish: Fish;
	readonly about: boolean;
	/** Newest confirmation of any room. */
	readonly confirmed: number | null;
	/** One of the asking member's rooms holds it. */
	readonly mine: boolean;
	readonly coordinator: string;
}
export interface LinesAsked {
	readonly search?: string;
	readonly kinds?: readonly LineKind[];
	readonly states?: readonly LineStateWord[];
	readonly mine?: boolean;
}
export interface LinesOverview {
	readonly rows: readonly LineRow[];
	/** How many lines there are without search and filters. */
	readonly all: number;
	readonly perState: { readonly [State in LineStateWord]?: number };
	readonly mine: number;
	/** Whether the asking member may open lines. */
	readonly mayOpen: boolean;
}

/**
 * Lines overview: which lines does the club keep, the most endangered first?
 *
 * Order: by state, then fewer rooms, then the older last word, then the name. Search finds name, code, taxon,
 * locality and the kind of fish; every word must be found, accents and case make no difference.
 */
export function linesOverview(state: ClubState, args: LinesAsked, asking: Asking): LinesOverview {
	const names = namesOf(state, null);
	const me = state.members.get(asking.me);
	const known = [...state.lines.values()].filter((line) => line.opened !== null || line.known);
	const rows = known.map((line) => row(state, line, asking, names.member, me?.rooms ?? []));
	const perState: { [State in LineStateWord]?: number } = {};
	for (const each of rows) perState[each.state.word] = (perState[each.state.word] ?? 0) + 1;
	const words = plain(args.search ?? '')
		.split(/\s+/)
		.filter(Boolean);
	const shown = rows.filter(({ row, text }) => {
		if (args.kinds?.length && !args.kinds.includes(row.kind)) return false;
		if (args.states?.length && !args.states.includes(row.state.word)) return false;
		if (args.mine && !row.mine) return false;
		return words.every((word) => text.includes(word));
	});
	return {
		rows: shown.map((each) => each.row).sort(mostEndangeredFirst),
		all: rows.length,
		perState,
		mine: rows.filter((each) => each.row.mine).length,
		mayOpen: me?.roles.some((role) => role.role === 'officer') ?? false
	};

	function row(
		state: ClubState,
		line: Line,
		asking: Asking,
		member: (id: string) => string,
		myRooms: readonly ThingId[]
	): { row: LineRow; state: LineStateSaid; text: string } {
		const all = holdings(state, line, asking.now);
		const held = all.filter((each) => each.word !== 'no longer has it');
		const said = lineState(line, all, asking.now);
		const coordinator = [...state.members.values()].find((each) =>
			each.roles.some((role) => role.role === 'coordinator' && role.of === line.id)
		);
		const made: LineRow = {
			id: line.id,
			code: line.code,
			name: names.line(line.id),
			kind: line.kind,
			fishGroup: line.fishGroup,
			locality: line.localityVerbatim,
			state: said,
			fish: held.reduce((sum, each) => addFish(sum, each.fish), noFish),
			about: held.some((each) => each.certainty !== 'counted' || each.notCounted > 0),
			confirmed: all.reduce<number | null>(
				(last, each) =>
					each.confirmed !== null && each.confirmed > (last ?? -Infinity) ? each.confirmed : last,
				null
			),
			mine: held.some((each) => myRooms.includes(each.room)),
			coordinator: coordinator ? member(coordinator.id) : ''
		};
		const text = plain(
			[
				line.name,
				line.code,
				line.taxonVerbatim,
				line.taxonTidy,
				line.localityVerbatim,
				line.localityCode,
				line.fishGroup
			].join(' ')
		);
		return { row: made, state: said, text };
	}
}

function mostEndangeredFirst(a: LineRow, b: LineRow): number {
	return (
		a.state.danger - b.state.danger ||
		a.state.confirmed - b.state.confirmed ||
		a.state.unconfirmed - b.state.unconfirmed ||
		(a.confirmed ?? 0) - (b.confirmed ?? 0) ||
		a.name.localeCompare(b.name)
	);
}

/** Letters without case and accents, so that a search typed on a phone finds "São". */
function plain(text: string): string {
	return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}
