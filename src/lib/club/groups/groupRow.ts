import type { ThingId } from '#records/entry.ts';
import type { Names } from '#records/kind.ts';
import type { Certainty, ClubState, Fish, FishGroup, Group, Said, Stage } from '#records/state.ts';
import { saidBy, saidByWords } from '../people/saidBy.ts';
import { originWords } from './originWords.ts';

/** One group as lists show it. */
export interface GroupRow {
	readonly id: ThingId;
	readonly name: string;
	/** Without the line's name, for lists under that name: "Group", "Fry", or the name that it was given. */
	readonly short: string;
	readonly tank: string;
	readonly line: {
		readonly id: ThingId;
		readonly name: string;
		readonly code: string;
		readonly fishGroup: FishGroup;
	} | null;
	readonly room: { readonly id: ThingId; readonly name: string } | null;
	readonly stage: Stage | null;
	readonly fish: Fish;
	readonly certainty: Certainty | 'not known';
	/** Who said the number that stands. */
	readonly counted: (Said & { readonly name: string }) | null;
	/** More left than were counted. */
	readonly belowZero: boolean;
	readonly closed: boolean;
	/** ms since 1970; null = not in quarantine now. */
	readonly quarantineUntil: number | null;
	readonly spare: Fish | null;
	readonly mixes: number;
	readonly disputed: boolean;
	readonly twoVersions: boolean;
	readonly ended: boolean;
	readonly came: string;
	readonly started: Said | null;
}

export function groupRow(state: ClubState, group: Group, names: Names, now: number): GroupRow {
	const line = group.line ? state.lines.get(group.line) : undefined;
	const room = group.room ? state.rooms.get(group.room) : undefined;
	const base = group.now.base;
	const name = names.group(group.id);
	const ofLine = line ? ` of ${line.name}` : '';
	const until = group.quarantine?.untilMs ?? 0;
	return {
		id: group.id,
		name: group.name || capital(name),
		short: group.name || capital(name.endsWith(ofLine) ? name.slice(0, name.length - ofLine.length) : name),
		tank: group.tank,
		line: line
			? { id: line.id, name: names.line(line.id), code: line.code, fishGroup: line.fishGroup }
			: null,
		room: room ? { id: room.id, name: names.room(room.id) } : null,
		stage: group.stage,
		fish: group.now.fish,
		certainty: group.now.certainty,
		counted: base ? { ...saidOnly(base), name: saidByWords(saidBy(base, names)) } : null,
		belowZero: group.now.belowZero,
		closed: group.closed !== null || (room?.closed ?? null) !== null,
		quarantineUntil: until > now ? until : null,
		spare: group.spare?.fish ?? null,
		mixes: group.mixes.length,
		disputed: group.disputes.some((dispute) => !dispute.decided),
		twoVersions: group.twoVersions.length > 0,
		ended: group.ended !== null,
		came: originWords(state, group.origin, names),
		started: group.started
	};
}

function capital(words: string): string {
	return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Only what is said of a statement, without its figures. */
export function saidOnly(of: Said): Said {
	return { entry: of.entry, by: of.by, toldBy: of.toldBy, when: of.when };
}
