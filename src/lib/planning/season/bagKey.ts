import type { PossibleBag, SeasonProblem, SexedFish } from './season.ts';

/** What goes where. */
export interface BagAsked {
	readonly gives: PossibleBag['gives'];
	readonly holding: number;
}

/**
 * The name of a bag that is the same in every plan: line, room, sources and fish, by ids.
 *
 * Ids are escaped, so the marks between the parts occur nowhere else and `readBagKey` can read it again.
 */
export function bagKey(problem: SeasonProblem, { gives, holding }: BagAsked): string {
	const { line, room } = problem.holdings[holding]!;
	const parts = gives.map(({ source, fish }) => {
		const count = `${fish.males}.${fish.females}.${fish.unsexed}`;
		return `${encodeURIComponent(problem.sources[source]!.id)}:${count}`;
	});
	const to = `${encodeURIComponent(problem.lines[line]!.id)}@${encodeURIComponent(problem.rooms[room]!.id)}`;
	return `${to}<${parts.sort().join('+')}`;
}

/** What the key says, or null when the problem knows no such line, room or source, or it is no key. */
export function readBagKey(problem: SeasonProblem, key: string): BagAsked | null {
	const [to = '', from = ''] = key.split('<');
	const holding = problem.holdings.findIndex(
		({ line, room }) =>
			`${encodeURIComponent(problem.lines[line]!.id)}@${encodeURIComponent(problem.rooms[room]!.id)}` === to
	);
	if (holding < 0) return null;
	const gives: { source: number; fish: SexedFish }[] = [];
	for (const part of from.split('+')) {
		const [id, count = ''] = part.split(':');
		const source = problem.sources.findIndex((one) => encodeURIComponent(one.id) === id);
		const [males, females, unsexed, ...more] = count.split('.').map(Number);
		if (source < 0 || more.length > 0 || ![males, females, unsexed].every((n) => Number.isSafeInteger(n)))
			return null;
		gives.push({ source, fish: { males: males!, females: females!, unsexed: unsexed! } });
	}
	return { gives, holding };
}
