/** A first list as it is written: lines that are missing are opened first, then one group a row. */
import type { Draft, ThingId } from '#records/entry.ts';
import { noFish } from '#records/fishCount.ts';
import type { FishGroup } from '#records/state.ts';
import { plain, type ListRow } from '#club/lines/readFirstList.ts';
import { started } from '#ui/groups/groupDrafts.ts';
import { emptyDefinition, lineOpened } from '#ui/lines/lineDrafts.ts';
import { codeFor } from '#ui/lines/codeFor.ts';

export interface ListWriting {
	/** In the order of writing; `row` is the row that a group was typed in, null for a line that is opened. */
	readonly drafts: readonly { readonly draft: Draft; readonly row: number | null }[];
	readonly linesOpened: number;
	readonly groups: number;
}

/**
 * What is written for the rows that are ready?
 *
 * A row's time reaches from its "since" to the moment of writing, for as long as the list says that the fish were
 * there; the number stands as of now, "from an old list", and confirms nothing. The row's own words are kept with it.
 *
 * @param now the moment of writing, ISO 8601 with offset
 * @param mayOpen whether the writer may open lines; without, rows of lines not known are left out
 */
export function listDrafts(
	rows: readonly ListRow[],
	of: {
		readonly now: string;
		readonly mayOpen: boolean;
		readonly fishGroups: ReadonlyMap<string, FishGroup>;
		readonly codesTaken: readonly string[];
		readonly newThing: () => ThingId;
	}
): ListWriting {
	const opened = new Map<string, ThingId>();
	const codes = new Set(of.codesTaken.map((code) => code.toUpperCase()));
	const lines: ListWriting['drafts'][number][] = [];
	const groups: ListWriting['drafts'][number][] = [];
	for (const row of rows) {
		if (row.problem || !row.room) continue;
		const key = plain(row.lineName);
		let line = row.line ?? opened.get(key);
		if (!line) {
			if (!of.mayOpen) continue;
			line = of.newThing();
			opened.set(key, line);
			const code = codeFor(row.lineName, codes);
			codes.add(code);
			const fishGroup = of.fishGroups.get(key) ?? 'other';
			const definition = { ...emptyDefinition, code, name: row.lineName, fishGroup };
			lines.push({ draft: lineOpened(line, of.now, definition), row: null });
		}
		const draft = started(row.since ? `${row.since}/${of.now}` : of.now, {
			group: of.newThing(),
			line,
			room: row.room,
			name: '',
			tank: '',
			origin: { from: 'list', row: row.text.slice(0, 4000) },
			fish: row.fish ?? noFish,
			certainty: 'old list',
			stage: null
		});
		groups.push({ draft, row: row.row });
	}
	return { drafts: [...lines, ...groups], linesOpened: lines.length, groups: groups.length };
}
