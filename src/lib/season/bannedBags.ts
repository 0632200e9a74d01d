import { seasonBags } from '#planning/season/possibleBags.ts';
import type { SeasonProblem } from '#planning/season/season.ts';
import type { SeasonSettings } from './seasonSettings.ts';

/**
 * Banned bags: keys of all bags that the settings do not want.
 *
 * Those named; all with fish of a group to a room that was declined; and where one sex alone is to travel, those with
 * the other to rooms that have fish of the line already. A room that gets fish for a cross gets no others of its line by
 * the same plan, so that who was crossed with whom stays clear.
 */
export function bannedBags(problem: SeasonProblem, settings: SeasonSettings): string[] {
	const { declined, sexes } = settings;
	if (declined.length === 0 && sexes === 'either' && problem.outcrosses.length === 0)
		return [...settings.banned].sort();
	const isDeclined = (group: string, room: string) =>
		declined.some((one) => one.group === group && one.room === room);
	const other = sexes === 'males' ? 'females' : 'males';
	const banned = seasonBags(problem).filter(({ gives, holding }) => {
		const { room, males, females } = problem.holdings[holding]!;
		const to = problem.rooms[room]!.id;
		if (gives.some(({ source }) => isDeclined(problem.sources[source]!.id, to))) return true;
		const { line } = problem.holdings[holding]!;
		const isCrossed = problem.outcrosses.some(([, into, at]) => into === line && at === room);
		if (isCrossed && gives.some(({ source }) => problem.sources[source]!.line === line)) return true;
		return sexes !== 'either' && males + females > 0 && gives.some(({ fish }) => fish[other] > 0);
	});
	return [...new Set([...settings.banned, ...banned.map(({ key }) => key)])].sort();
}
