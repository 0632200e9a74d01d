/**
 * When a day begins in a time zone. A zone's offset changes twice a year at most in most places: between two changes
 * the answer is plain arithmetic, and only near a change the calendar is asked. Source of zones: IANA, as the browser
 * has them.
 */
import { Temporal } from 'temporal-polyfill';

/** A time in which a zone keeps one offset, ms since 1970. */
interface Stretch {
	readonly from: number;
	readonly to: number;
	readonly offset: number;
}

const stretches = new Map<string, Stretch[]>();
/** Offsets reach from -12 to +14 hours; two days keep every midnight clear of a change. */
const nearChangeMs = 2 * 86_400_000;

/**
 * @param midnight that day at 00:00 in UTC, ms since 1970
 * @returns its first moment in the zone, ms since 1970; throws on a zone that this device does not know
 */
export function startOfDay(midnight: number, timeZone: string): number {
	const stretch = stretchAt(midnight, timeZone);
	const isClear = midnight - stretch.from > nearChangeMs && stretch.to - midnight > nearChangeMs;
	if (isClear) return midnight - stretch.offset;
	const { year, month, day } = Temporal.Instant.fromEpochMilliseconds(midnight).toZonedDateTimeISO('UTC');
	return new Temporal.PlainDate(year, month, day).toZonedDateTime({ timeZone }).epochMilliseconds;
}

function stretchAt(time: number, timeZone: string): Stretch {
	const known = stretches.get(timeZone) ?? [];
	for (const stretch of known) if (stretch.from <= time && time < stretch.to) return stretch;
	const zoned = Temporal.Instant.fromEpochMilliseconds(time).toZonedDateTimeISO(timeZone);
	const found: Stretch = {
		// A change at this very moment is told as the previous one only of the moment after.
		from: zoned.add({ milliseconds: 1 }).getTimeZoneTransition('previous')?.epochMilliseconds ?? -Infinity,
		to: zoned.getTimeZoneTransition('next')?.epochMilliseconds ?? Infinity,
		offset: zoned.offsetNanoseconds / 1e6
	};
	stretches.set(timeZone, [...known, found]);
	return found;
}
