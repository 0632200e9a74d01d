import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { ClubState, Fish } from '#records/state.ts';
import { readListCount } from './readListCount.ts';
import { readListDate } from './readListDate.ts';

export interface ListRow {
	/** Number of the row as typed, from 1. */
	readonly row: number;
	/** Exactly as typed. */
	readonly text: string;
	readonly lineName: string;
	/** A line that the club has already; null = it would be opened first. */
	readonly line: ThingId | null;
	readonly roomName: string;
	readonly room: ThingId | null;
	readonly fish: Fish | null;
	/** ISO 8601-2; '' = not known. */
	readonly since: string;
	/** One sentence: what is wrong and what to do; '' = ready. */
	readonly problem: string;
	/** Ready, but worth a look: what could not be read stays in the row's own words. */
	readonly note: string;
}
export interface FirstList {
	readonly rows: readonly ListRow[];
	readonly ready: number;
	readonly problems: number;
	/** Names of lines that the club does not have yet, each once. */
	readonly newLines: readonly string[];
	readonly rooms: readonly { readonly id: ThingId; readonly name: string }[];
}

/**
 * First list: what does this pasted or typed list say, row by row?
 *
 * Four columns: line, room, count, since. Between them a tab, a semicolon, a bar or a comma, the same in the whole row; text in
 * straight quotes may hold any of them. A heading row and empty rows are passed over. A row with a problem is kept and
 * shown; nothing typed is lost.
 */
export function readFirstList(state: ClubState, args: { readonly text: string }): FirstList {
	const lines = [...state.lines.values()].filter((line) => line.name !== '');
	const rooms = [...state.rooms.values()].filter((room) => room.known);
	const rows: ListRow[] = [];
	const seen = new Map<string, number>();
	args.text.split(/\r\n|\r|\n/).forEach((text, index) => {
		if (text.trim() === '') return;
		const cells = cellsOf(text);
		if (rows.length === 0 && isHeading(cells)) return;
		const [lineName = '', roomName = '', count = '', since = ''] = cells;
		const line = lines.find((each) => same(each.name, lineName) || same(each.code, lineName)) ?? null;
		const found = rooms.filter((each) => same(each.name, roomName));
		const room = found.length === 1 ? (found[0] ?? null) : null;
		const fish = readListCount(count);
		const date = readListDate(since);
		const twin = seen.get(`${plain(lineName)}|${plain(roomName)}|${count.trim()}|${since.trim()}`);
		const problem =
			lineName === ''
				? 'This row has no line: write the line first, then the room.'
				: roomName === ''
					? 'This row has no room: write the line, a comma, then the room.'
					: found.length > 1
						? `Two rooms are called ${roomName}: ask an officer to give one of them another name.`
						: !room
							? `There is no room called ${roomName}: check the spelling, or ask an officer to add it.`
							: fish === 'unreadable'
								? `“${count}” cannot be read as a count: write it like 2.3.6 (males, females, not sexed), or leave it empty.`
								: date.problem
									? date.problem
									: twin !== undefined
										? `This row says the same as row ${twin}: take one of them out.`
										: lineName.length > 200 || text.length > 3000
											? 'This row is too long: keep the name of the line under 200 letters.'
											: '';
		if (twin === undefined)
			seen.set(`${plain(lineName)}|${plain(roomName)}|${count.trim()}|${since.trim()}`, index + 1);
		const known = fish === 'unreadable' ? null : fish;
		rows.push({
			row: index + 1,
			text,
			lineName: line?.name ?? lineName,
			line: line?.id ?? null,
			roomName: room?.name ?? roomName,
			room: room?.id ?? null,
			fish: known,
			since: date.text,
			problem,
			note: problem
				? ''
				: [
						known && howManyFish(known) === 0 ? 'says none' : '',
						cells.length > 4 ? 'the rest of the row is kept as a note' : ''
					]
						.filter(Boolean)
						.join('; ')
		});
	});
	const ready = rows.filter((row) => row.problem === '');
	return {
		rows,
		ready: ready.length,
		problems: rows.length - ready.length,
		newLines: [
			...new Map(ready.filter((row) => !row.line).map((row) => [plain(row.lineName), row.lineName])).values()
		],
		rooms: rooms
			.map((room) => ({ id: room.id, name: room.name }))
			.sort((a, b) => a.name.localeCompare(b.name))
	};
}

/** Names are the same whatever the capitals and spaces. */
export function plain(name: string): string {
	return name.normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase();
}

function same(a: string, b: string): boolean {
	return plain(a) !== '' && plain(a) === plain(b);
}

function cellsOf(text: string): string[] {
	const mark = ['\t', ';', '|', ','].find((each) => outsideQuotes(text).includes(each)) ?? ',';
	const cells: string[] = [];
	let cell = '';
	let quoted = false;
	for (let i = 0; i < text.length; i++) {
		const letter = text.charAt(i);
		if (letter === '"' && quoted && text.charAt(i + 1) === '"') {
			cell += '"';
			i++;
		} else if (letter === '"' && (quoted || cell.trim() === '')) quoted = !quoted;
		else if (letter === mark && !quoted) {
			cells.push(cell.trim());
			cell = '';
		} else cell += letter;
	}
	cells.push(cell.trim());
	return cells;
}

function outsideQuotes(text: string): string {
	return text.replace(/"[^"]*"/g, '');
}

function isHeading(cells: readonly string[]): boolean {
	return plain(cells[0] ?? '') === 'line' && plain(cells[1] ?? '') === 'room';
}
