import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { BagStage, ClubState, FishGroup, Room, RoomCheck, Said } from '#records/state.ts';
import { groupRow, type GroupRow } from '../groups/groupRow.ts';
import { holdings, isStanding, type Holding } from '../lines/holdings.ts';
import { partIn, type Part } from '../people/partIn.ts';
import { saidBy, saidByWords } from '../people/saidBy.ts';
import type { Asking } from '../question.ts';
import { rulesOf } from '../lines/rulesOf.ts';
import { tanksFree, type TanksFree } from './tanksFree.ts';

export interface LineInRoom {
	readonly line: ThingId;
	readonly name: string;
	readonly code: string;
	readonly fishGroup: FishGroup;
	readonly holding: Holding;
	readonly ageingDays: number;
	readonly confirmedDays: number;
	readonly groups: readonly GroupRow[];
	/** Who confirmed it, and who typed it for them; '' = nobody. */
	readonly confirmedName: string;
	readonly check: (RoomCheck & { readonly name: string }) | null;
	/** The asking member may answer for the room: keeps it, looks after the line, or is an officer. */
	readonly mayAnswer: boolean;
}
export interface RoomPage {
	readonly id: ThingId;
	readonly known: boolean;
	readonly name: string;
	readonly region: string;
	/** Other rooms of the same house: they count once. */
	readonly sameHouse: readonly { readonly id: ThingId; readonly name: string }[];
	readonly keepers: readonly { readonly id: string; readonly name: string }[];
	readonly keptBefore: readonly { readonly id: string; readonly name: string; readonly until: string }[];
	readonly epoch: string;
	readonly closed: (NonNullable<Room['closed']> & { readonly name: string }) | null;
	/** Tanks free for newcomers; null = nobody has said. */
	readonly tanksFree: (TanksFree & { readonly entry: string }) | null;
	/** The asking member may say so for the room: keeps it, is an officer, or looks after a line (by that line); null = not. */
	readonly mayTellTanks: { readonly line: ThingId | null } | null;
	/** Lines that the room has now; those with the oldest word first, so that silence is seen. */
	readonly lines: readonly LineInRoom[];
	readonly linesBefore: readonly { readonly line: ThingId; readonly name: string; readonly code: string }[];
	/** Groups whose line nobody has said. */
	readonly otherGroups: readonly GroupRow[];
	readonly spawns: readonly {
		readonly id: ThingId;
		readonly line: string;
		readonly sort: 'spawn' | 'drop';
		readonly seen: Said | null;
	}[];
	readonly bags: readonly {
		readonly id: ThingId;
		readonly number: string;
		readonly stage: BagStage;
		readonly words: string;
	}[];
	readonly wants: readonly { readonly line: ThingId; readonly name: string; readonly note: string }[];
	readonly part: Part;
}

/** Room page: what does this room keep, and what is on its way in or out? */
export function roomPage(
	state: ClubState,
	args: { readonly room: ThingId },
	asking: Asking
): RoomPage | null {
	const room = state.rooms.get(args.room);
	if (!room) return null;
	const names = namesOf(state, null);
	const here = [...new Set(state.groups.values())].filter((group) => group.room === room.id);
	const lineIds = new Set<ThingId>(room.checks.map((check) => check.line));
	for (const group of here) if (group.line) lineIds.add(group.line);
	const lines: LineInRoom[] = [];
	const linesBefore: { line: ThingId; name: string; code: string }[] = [];
	for (const id of lineIds) {
		const line = state.lines.get(id);
		const held = line && holdings(state, line, asking.now).find((each) => each.room === room.id);
		if (!line || !held) continue;
		if (held.word === 'no longer has it') {
			linesBefore.push({ line: id, name: names.line(id), code: line.code });
			continue;
		}
		const rules = rulesOf(line);
		const check = room.checks.filter((each) => each.line === id).at(-1) ?? null;
		lines.push({
			line: id,
			name: names.line(id),
			code: line.code,
			fishGroup: line.fishGroup,
			holding: held,
			ageingDays: rules.ageingDays,
			confirmedDays: rules.confirmedDays,
			groups: here
				.filter((group) => group.line === id && isStanding(group))
				.map((group) => groupRow(state, group, names, asking.now)),
			confirmedName: held.confirmedBy ? saidByWords(saidBy(held.confirmedBy, names)) : '',
			check: check ? { ...check, name: saidByWords(saidBy(check, names)) } : null,
			mayAnswer: partIn(state, asking.me, room.id, id).any
		});
	}
	lines.sort(
		(a, b) => (a.holding.confirmed ?? 0) - (b.holding.confirmed ?? 0) || a.name.localeCompare(b.name)
	);
	const member = (id: string) => ({ id, name: names.member(id) });
	const part = partIn(state, asking.me, room.id, null);
	const lookedAfter = state.members
		.get(asking.me)
		?.roles.find(({ role, of }) => of !== null && (role === 'coordinator' || role === 'deputy'));
	const tanks = tanksFree(state, asking.now)(room);
	return {
		id: room.id,
		known: room.known,
		name: names.room(room.id),
		region: room.region,
		sameHouse: room.house
			? [...state.rooms.values()]
					.filter((other) => other.house === room.house && other.id !== room.id)
					.map((other) => ({ id: other.id, name: names.room(other.id) }))
			: [],
		keepers: room.keepers.map(member),
		keptBefore: room.keepersBefore.map((before) => ({ ...member(before.member), until: before.until.text })),
		epoch: room.epoch,
		closed: room.closed ? { ...room.closed, name: saidByWords(saidBy(room.closed, names)) } : null,
		tanksFree: tanks && room.tanksFree ? { ...tanks, entry: room.tanksFree.entry } : null,
		mayTellTanks: part.any ? { line: null } : lookedAfter ? { line: lookedAfter.of } : null,
		lines,
		linesBefore,
		otherGroups: here
			.filter((group) => !group.line && isStanding(group))
			.map((group) => groupRow(state, group, names, asking.now)),
		spawns: [...state.spawns.values()]
			.filter((spawn) => spawn.room === room.id)
			.sort((a, b) => (b.seen?.when.last ?? 0) - (a.seen?.when.last ?? 0))
			.slice(0, 12)
			.map((spawn) => ({
				id: spawn.id,
				line: spawn.line ? names.line(spawn.line) : 'a line not said',
				sort: spawn.sort,
				seen: spawn.seen
			})),
		bags: bagsOf(state, room.id, names.room),
		wants: room.wants
			.filter((want) => !want.ended)
			.map((want) => ({ line: want.line, name: names.line(want.line), note: want.note })),
		part
	};
}

/** Bags given or awaited, not yet arrived. */
function bagsOf(state: ClubState, room: ThingId, nameOf: (id: ThingId) => string): RoomPage['bags'] {
	const open: readonly BagStage[] = ['mentioned', 'bagged', 'handed over'];
	return [...new Set(state.bags.values())]
		.filter(
			(bag) =>
				open.includes(bag.stage) && (bag.fromRoom === room || (bag.to?.to === 'room' && bag.to.room === room))
		)
		.map((bag) => {
			const out = bag.fromRoom === room;
			const to =
				bag.to?.to === 'room'
					? nameOf(bag.to.room)
					: bag.to && 'name' in bag.to
						? bag.to.name
						: 'somebody not said yet';
			const from = bag.fromRoom ? nameOf(bag.fromRoom) : 'a room not said yet';
			return { id: bag.id, number: bag.number, stage: bag.stage, words: out ? `to ${to}` : `from ${from}` };
		});
}
