import type { LineStateWord } from '#club/lines/lineState.ts';
import type { SeasonProblem, SeasonWish } from '#planning/season/season.ts';
import type { SeasonSettings } from './seasonSettings.ts';

/** Bags given less bags got, over a year: nobody further out than this, or than the furthest is already. */
const fairBags = 2;

/**
 * Season wishes: what do the settings firmly wish?
 *
 * A line that only one room has comes first: it should get a second one, where somebody waits for it and fish can be
 * spared.
 *
 * @param words how endangered each line of the problem is
 */
export function seasonWishes(
	problem: SeasonProblem,
	settings: SeasonSettings,
	words: readonly LineStateWord[]
): SeasonWish[] {
	const { lines, rooms, holdings, sources } = problem;
	const isOpen = (room: number) => !rooms[room]!.isClosed;
	const holders = lines.flatMap(({ id, holders: now }, line): SeasonWish[] => {
		const asked = settings.holdersAtLeast[id];
		const canRescue =
			words[line] === 'last room' &&
			holdings.some((one) => one.line === line && one.males + one.females === 0 && isOpen(one.room)) &&
			sources.some((one) => one.line === line && isOpen(one.room));
		const least = Math.max(asked ?? 0, canRescue ? now + 1 : 0);
		return least > 0 ? [{ id: `holders:${id}`, wish: 'holders', line, least }] : [];
	});
	const newBlood = settings.newBloodFor.flatMap(([line, room]): SeasonWish[] => {
		const holding = holdings.findIndex((one) => lines[one.line]!.id === line && rooms[one.room]!.id === room);
		return holding < 0 ? [] : [{ id: `newBlood:${line}:${room}`, wish: 'newBlood', holding }];
	});
	const crosses = problem.outcrosses.flatMap(([from, to, room]): SeasonWish[] => {
		const holding = holdings.findIndex((one) => one.line === to && one.room === room);
		const id = `cross:${lines[from]!.id}:${lines[to]!.id}:${rooms[room ?? -1]?.id ?? ''}`;
		return holding < 0 ? [] : [{ id, wish: 'newBlood', holding }];
	});
	const bags = [...new Set(settings.locked)]
		.sort()
		.map((key): SeasonWish => ({ id: `bag:${key}`, wish: 'bag', key }));
	const worst = Math.max(fairBags, ...rooms.map(({ balance }) => Math.abs(balance)));
	return [
		...holders,
		...newBlood,
		...crosses,
		...bags,
		...(settings.tripsAtMost === null
			? []
			: [{ id: 'trips', wish: 'trips' as const, most: settings.tripsAtMost }]),
		...(settings.bagsAtMost === null
			? []
			: [{ id: 'bags', wish: 'bags' as const, most: settings.bagsAtMost }]),
		...(settings.fair ? [{ id: 'fair', wish: 'fair' as const, most: worst }] : [])
	];
}
