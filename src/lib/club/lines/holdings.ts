import { addFish, howManyFish, noFish } from '#records/fishCount.ts';
import type { ThingId } from '#records/entry.ts';
import type {
	Certainty,
	ClubState,
	Fish,
	Group,
	Line,
	Origin,
	RoomCheck,
	Said,
	Spawn
} from '#records/state.ts';
import { forCross } from '../groups/forCross.ts';
import { dayMs, laterSaid } from '../question.ts';
import { rulesOf } from './rulesOf.ts';

export type HoldingWord = 'holds it' | 'not confirmed' | 'no longer has it' | 'unknown';

/** One room and one line: what the room has now, and how fresh that is. */
export interface Holding {
	readonly room: ThingId;
	/** Rooms with one key share a heater or a power line: they count once. */
	readonly house: string;
	/** `unknown`: only ever named in an old list, or not sure. */
	readonly word: HoldingWord;
	readonly ageing: boolean;
	/** First possible moment of the last confirmation: doubt about the day ages a holding, never freshens it. */
	readonly confirmed: number | null;
	readonly confirmedBy: Said | null;
	/** The last answer to "breeding?"; null = nobody has said. */
	readonly breeding: RoomCheck | null;
	/** Last word of any sort, "no" and "not sure" too: whether the room has answered. */
	readonly lastWord: Said | null;
	readonly since: Said | null;
	readonly origin: Origin | null;
	readonly groups: readonly ThingId[];
	readonly fish: Fish;
	/** `about` when any part of the sum is a guess; `not known` when nothing was counted. */
	readonly certainty: Certainty | 'not known';
	/** Groups that stand but that nobody has counted: the sum is at least so many. */
	readonly notCounted: number;
	readonly youngestBrood: Said | null;
	/** All that is there came to be crossed with another line: no holder of this one. */
	readonly forCross: boolean;
}

/**
 * Holdings of a line: which rooms have it, had it, and when did each last say so?
 *
 * A room holds a line when it has a group of it that has not ended and stands above 0 or was never counted, or when
 * its last "still have them?" says yes. A "no" ends the holding; a "yes" is overtaken when every group of the line in
 * the room is later said to be empty or ended; a sign of life after a "no" brings it back. A holding is confirmed by
 * a "yes", by a count above 0 that is not from an old list, by a spawn seen and by a bag that arrived alive, in that
 * room. An old list names a holding and confirms nothing.
 *
 * @returns every room that has or had the line, in no particular order
 */
export function holdings(state: ClubState, line: Line, now: number): Holding[] {
	const groups = new Map<ThingId, Group[]>();
	for (const group of new Set(state.groups.values())) {
		if (group.line !== line.id || !group.room) continue;
		const there = groups.get(group.room);
		if (there) there.push(group);
		else groups.set(group.room, [group]);
	}
	const spawns = new Map<ThingId, Spawn[]>();
	for (const spawn of state.spawns.values()) {
		if (spawn.line !== line.id || !spawn.room) continue;
		const there = spawns.get(spawn.room);
		if (there) there.push(spawn);
		else spawns.set(spawn.room, [spawn]);
	}
	const rooms = new Set(groups.keys());
	for (const room of state.rooms.values())
		if (room.checks.some((check) => check.line === line.id)) rooms.add(room.id);
	return [...rooms].map((room) =>
		holding(state, line, room, groups.get(room) ?? [], spawns.get(room) ?? [], now)
	);
}

/** Whether fish of a group may still be there. */
export function isStanding(group: Group): boolean {
	return !group.ended && (group.now.certainty === 'not known' || howManyFish(group.now.fish) > 0);
}

function holding(
	state: ClubState,
	line: Line,
	id: ThingId,
	groups: readonly Group[],
	spawns: readonly Spawn[],
	now: number
): Holding {
	const room = state.rooms.get(id);
	const checks = (room?.checks ?? []).filter((check) => check.line === line.id);
	const check = latest(checks.filter((each) => each.has !== 'unsure'));
	const standing = groups.filter(isStanding);
	const signs = signsOfLife(groups, spawns);
	const sign = latest(signs);
	const emptied = latest(standing.length === 0 ? groups.flatMap(lastWords) : []);
	const alive = standing.length > 0 && !(check?.has === 'no' && !(sign && laterSaid(sign, check)));
	const saidYes = check?.has === 'yes' && !(emptied && laterSaid(emptied, check));
	const confirmedBy = latest([...signs, ...checks.filter((each) => each.has === 'yes')]);
	const confirmed = confirmedBy ? Math.min(confirmedBy.when.first, now) : null;
	const rules = rulesOf(line);
	const ageDays = confirmed === null ? Infinity : (now - confirmed) / dayMs;
	const holds = alive || saidYes;
	const word: HoldingWord = !holds
		? 'no longer has it'
		: confirmed === null
			? 'unknown'
			: ageDays <= rules.confirmedDays
				? 'holds it'
				: 'not confirmed';
	const first = earliest(groups) ?? null;
	const counted = standing.filter((group) => group.now.certainty !== 'not known');
	const young = latest(
		spawns.flatMap((spawn) => (spawn.seen && broodStands(spawn, groups) ? [spawn.seen] : []))
	);
	return {
		room: id,
		house: room?.house ? `house:${room.house}` : id,
		word,
		ageing: word === 'holds it' && ageDays > rules.ageingDays,
		confirmed,
		confirmedBy,
		breeding: latest(checks.filter((each) => each.has === 'yes' && each.breeding !== 'unknown')),
		lastWord: latest([...signs, ...checks, ...(emptied ? [emptied] : [])]),
		since: first?.started ?? checks[0] ?? null,
		origin: first?.origin ?? null,
		groups: standing.map((group) => group.id),
		fish: counted.reduce((sum, group) => addFish(sum, group.now.fish), noFish),
		certainty: certaintyOf(counted),
		notCounted: standing.length - counted.length,
		youngestBrood: young,
		forCross: standing.length > 0 && standing.every((group) => forCross(state, group) !== null)
	};
}

function signsOfLife(groups: readonly Group[], spawns: readonly Spawn[]): Said[] {
	return [
		...groups.flatMap((group) =>
			group.counts.filter((count) => count.certainty !== 'old list' && howManyFish(count.fish) > 0)
		),
		...spawns.flatMap((spawn) => (spawn.seen ? [spawn.seen] : []))
	];
}

/** When a group was last spoken of: what made it empty is among these. */
function lastWords(group: Group): Said[] {
	return [...group.counts, ...group.changes, ...(group.ended ? [group.ended] : [])];
}

function broodStands(spawn: Spawn, groups: readonly Group[]): boolean {
	const brood = groups.find((group) => group.id === spawn.brood);
	return brood !== undefined && isStanding(brood);
}

function certaintyOf(counted: readonly Group[]): Certainty | 'not known' {
	if (counted.length === 0) return 'not known';
	const all = counted.map((group) => group.now.certainty);
	if (all.every((each) => each === 'old list')) return 'old list';
	return all.every((each) => each === 'counted') ? 'counted' : 'about';
}

function latest<Statement extends Said>(said: readonly Statement[]): Statement | null {
	return said.reduce<Statement | null>((best, each) => (!best || laterSaid(each, best) ? each : best), null);
}

/** The group with which the line came to the room. */
function earliest(groups: readonly Group[]): Group | undefined {
	return groups
		.filter((group) => group.started)
		.reduce<Group | undefined>(
			(best, group) =>
				!best || (group.started?.when.first ?? 0) < (best.started?.when.first ?? 0) ? group : best,
			undefined
		);
}
