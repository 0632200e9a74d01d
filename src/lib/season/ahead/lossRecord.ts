import { holdings } from '#club/lines/holdings.ts';
import { dayMs } from '#club/question.ts';
import type { ClubState } from '#records/state.ts';

/** What the club's record tells of rooms that lost a line, and of rooms that got one. */
export interface LossRecord {
	/** Years in which some room is known to have had some line, added up. */
	readonly years: number;
	/** How often a room had it no longer, whatever became of the fish. */
	readonly lost: number;
	/** How often another room got it, after the first one had it. */
	readonly refilled: number;
}

/** Rooms entered within so many days of the first one began with it, as far as the record tells. */
const atTheStartDays = 30;

/**
 * Loss record: how often did rooms of this club lose a line, and how often did another room get it?
 *
 * All lines together: one line alone has too few rooms to learn from. A room is watched from the day it had the line to
 * its last word on it; silence after that is not counted as keeping it.
 */
export function lossRecord(state: ClubState, now: number): LossRecord {
	let [days, lost, refilled] = [0, 0, 0];
	for (const line of state.lines.values()) {
		const held = holdings(state, line, now).filter(({ since }) => since !== null);
		const first = Math.min(...held.map(({ since }) => since!.when.first));
		for (const { since, word, lastWord, confirmed, origin } of held) {
			const from = since!.when.first;
			const gone = word === 'no longer has it';
			const until = gone ? (lastWord?.when.first ?? from) : (confirmed ?? from);
			days += Math.max(0, Math.min(now, until) - from) / dayMs;
			if (gone) lost++;
			if (origin?.from === 'bag' && from - first > atTheStartDays * dayMs) refilled++;
		}
	}
	return { years: days / 365.25, lost, refilled };
}
