import type { UnitId } from '#genetics/groups/event.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState, Fish } from '#records/state.ts';
import { partFor, sexes, type EventList, type Parts, type Sex } from './eventList.ts';
import { fishAt } from './fishAt.ts';

/** What leaving needs of the events gathered so far. */
export interface LeavingFrom {
	readonly list: EventList;
	readonly state: ClubState;
	sexed(group: ThingId, at: number): Parts;
}

/**
 * Leaving together: fish of one or more sexes go out of a group at one time; how many stay is what the record says.
 *
 * Those that stay are others than those that leave, so that what stays must be known at each step: fish of the other
 * sex that are yet to be taken from the same unit stay as well until then.
 *
 * @param fish all that leave
 * @param at ms since 1970; the record's number for that time has them left already
 * @returns to be called once for each sex among them, with a new unit; gives the unit that they are
 */
export function leavingTogether(
	gathered: LeavingFrom,
	source: ThingId,
	fish: Fish,
	at: number
): (sex: Sex, unit: UnitId) => UnitId {
	const { list, state } = gathered;
	const group = state.groups.get(source);
	const toLeave: Record<Sex, number> = { ...fish };
	const fromOf = (sex: Sex) => {
		const parts = gathered.sexed(source, at);
		const standing = sexes.filter((one) => parts[one] !== undefined && !list.isEmptied(parts[one]));
		const from =
			partFor(Object.fromEntries(standing.map((one) => [one, parts[one]])), sex) ?? partFor(parts, sex);
		if (from === undefined) throw new RangeError(`lineEvents requires fish in ${source}`);
		return { from, of: sexes.find((one) => parts[one] === from)! };
	};
	return (sex, unit) => {
		const count = toLeave[sex];
		toLeave[sex] = 0;
		const { from, of } = fromOf(sex);
		const there = group ? fishAt(group, at) : null;
		const others = sexes.filter((other) => toLeave[other] > 0 && fromOf(other).from === from);
		const still = others.reduce((sum, other) => sum + toLeave[other], 0);
		const stay = there ? there[of] + still : Math.max(still, list.countOf(from) - count);
		return list.split(from, unit, count, stay);
	};
}
