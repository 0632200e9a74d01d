/** What is written about a room. */
import type { Draft, ThingId } from '#records/entry.ts';

function said(toldBy: string | undefined): { toldBy?: string } {
	return toldBy ? { toldBy } : {};
}

/** "Still have them?" */
export function checkedIn(
	room: ThingId,
	line: ThingId,
	happened: string,
	has: 'yes' | 'no' | 'unsure',
	more: {
		readonly breeding?: 'yes' | 'no' | 'unknown';
		readonly note?: string;
		readonly toldBy?: string;
	} = {}
): Draft {
	return {
		kind: 'room/checkedIn',
		happened,
		about: [room, line],
		...said(more.toldBy),
		body: { room, line, has, breeding: more.breeding ?? 'unknown', note: more.note ?? '' }
	};
}

export function roomClosed(room: ThingId, happened: string, reason: string, toldBy?: string): Draft {
	return { kind: 'room/closed', happened, about: [room], ...said(toldBy), body: { room, reason } };
}

export function roomReopened(room: ThingId, happened: string, toldBy?: string): Draft {
	return { kind: 'room/reopened', happened, about: [room], ...said(toldBy), body: { room } };
}

/** "2 tanks free for newcomers." @param line for whose swaps it was asked: its coordinator may say so for a keeper */
export function tanksFreeSaid(
	room: ThingId,
	happened: string,
	tanks: number,
	of: { readonly line: ThingId | null; readonly toldBy: string }
): Draft {
	const about = [room, ...(of.line ? [of.line] : [])];
	return {
		...{ kind: 'room/tanksFree', happened, about },
		...said(of.toldBy),
		body: { room, line: of.line, tanks }
	};
}

export function wanted(room: ThingId, line: ThingId, happened: string, note: string): Draft {
	return { kind: 'line/wanted', happened, about: [room, line], body: { line, room, note } };
}

export function wantEnded(room: ThingId, line: ThingId, happened: string): Draft {
	return { kind: 'line/wantEnded', happened, about: [room, line], body: { line, room } };
}

/** Two regions are far apart, or an ordinary drive again. */
export function distanceSaid(
	club: ThingId,
	happened: string,
	[one, other]: readonly [string, string],
	far: boolean
): Draft {
	return { kind: 'club/distanceSaid', happened, about: [club], body: { club, one, other, far } };
}

/** Words for those who keep the room. They are a writing of their own: the club's record never names them. */
export function privateWords(
	room: ThingId,
	happened: string,
	text: string,
	of: { readonly group?: ThingId; readonly explains?: string } = {}
): Draft {
	return {
		kind: 'room/privateWords',
		happened,
		about: [room],
		body: { room, text, explains: of.explains ?? null, group: of.group ?? null }
	};
}
