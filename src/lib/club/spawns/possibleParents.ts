import { countNow } from '#records/countNow.ts';
import { dayText } from '#records/dayText.ts';
import type { ThingId } from '#records/entry.ts';
import { fishText } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, CountNow, Group, ParentSet, Standing } from '#records/state.ts';
import { forCross } from '../groups/forCross.ts';
import { isStanding } from '../lines/holdings.ts';
import { dayMs } from '../question.ts';
import { broodClock } from './broodClock.ts';

/** A group that one of the parents may be from. */
export interface ParentCandidate {
	readonly group: ThingId;
	readonly name: string;
	readonly tank: string;
	/** `2m 3f` as of the spawn; '' = nobody counted. */
	readonly fish: string;
	/** The tank that it was seen in. */
	readonly here: boolean;
	/** Why it is here: "in this tank", "lived with her until 3 March". */
	readonly because: string;
	readonly standing: Standing;
	/** Younger than this kind of fish breeds: left out unless a person puts it in. */
	readonly tooYoung: boolean;
}
export interface PossibleParents {
	readonly mothers: readonly ParentCandidate[];
	readonly fathers: readonly ParentCandidate[];
	/** She may have been mated by a male that no record knows of. */
	readonly otherFathers: boolean;
	/** How far back fathers were looked for; 0 = only the tank itself. */
	readonly windowDays: number;
	readonly mothersDefault: ParentSet;
	/** "Don't know which male". */
	readonly fathersDefault: ParentSet;
}
export interface PossibleParentsAsked {
	readonly room: ThingId;
	readonly group: ThingId;
	/** ms since 1970. */
	readonly at: number;
}

interface Visit {
	readonly group: Group;
	readonly from: number;
	readonly until: number;
	/** Only its fish in one bag with hers, which was given back: where they had lived before is no trail of hers. */
	readonly inBag?: boolean;
}

/**
 * Possible parents: who may be mother and father of young seen in this group at this time?
 *
 * Mothers live in the group. Fathers are every male of breeding age in the same water within the window: stored sperm
 * for livebearers (10 months), the brood that she carries for goodeids (8 weeks), the tank itself for egg layers. The
 * window follows the fish back through bags, moves and splits into every group she lived in, and to the males in one
 * bag with her that was given back unopened; where the trail is lost inside the window, a father may be unknown. Never
 * per cents: likely (the tank she lives in now) or possible. Rules for stored sperm: own choice after López-Sepulcre et
 * al. 2013; common practice, no source.
 */
export function possibleParents(state: ClubState, args: PossibleParentsAsked): PossibleParents {
	const group = state.groups.get(args.group);
	const fishGroup = (group?.line ? state.lines.get(group.line)?.fishGroup : undefined) ?? 'other';
	const clock = broodClock[fishGroup];
	const names = namesOf(state, null);
	const nothing: ParentSet = { of: [], others: true, number: 'not known' };
	if (!group) {
		return {
			...{ mothers: [], fathers: [], otherFathers: true, windowDays: clock.fatherWindowDays },
			...{ mothersDefault: nothing, fathersDefault: nothing }
		};
	}
	const from = args.at - clock.fatherWindowDays * dayMs;
	const trail = followBack(state, group, from, args.at);
	const here = countAt(group, args.at);
	const mothers = mayHave(here, 'females') ? [candidate(group, here, 'in this tank', 'possible')] : [];
	const surelyOneMother = here.certainty === 'counted' && here.fish.females === 1 && here.fish.unsexed === 0;
	const fathers = trail.visits
		.filter((visit) => hadMales(visit))
		.map((visit) => {
			const now = visit.group === group;
			const until = new Date(visit.until).toISOString().slice(0, 10);
			const because = now
				? 'in this tank'
				: `${visit.inBag ? 'in one bag' : 'lived'} with her until ${dayText(until)}`;
			return candidate(
				visit.group,
				countAt(visit.group, Math.min(visit.until, args.at)),
				because,
				now ? 'likely' : 'possible'
			);
		});
	const others = trail.lost;
	const old = fathers.filter((each) => !each.tooYoung);
	return {
		mothers,
		fathers,
		otherFathers: others || old.length === 0,
		windowDays: clock.fatherWindowDays,
		mothersDefault: {
			of: mothers.map(({ group }) => ({
				group,
				standing: surelyOneMother ? ('seen' as const) : ('possible' as const)
			})),
			others: mothers.length === 0,
			number: surelyOneMother ? 'one' : 'not known'
		},
		fathersDefault: {
			of: old.map(({ group }) => ({ group, standing: 'possible' as const })),
			others: others || old.length === 0,
			number: 'not known'
		}
	};

	function candidate(of: Group, count: CountNow, because: string, standing: Standing): ParentCandidate {
		return {
			group: of.id,
			name: names.group(of.id),
			tank: of.tank,
			fish: count.certainty === 'not known' ? '' : fishText(count.fish),
			here: of === group,
			because,
			standing,
			tooYoung: isTooYoung(state, of, args.at, clock.breedsFromDays)
		};
	}
}

/** Every group that fish of this one lived in since `from`, and whether the trail is lost on the way. */
function followBack(
	state: ClubState,
	group: Group,
	from: number,
	at: number
): { visits: Visit[]; lost: boolean } {
	const visits = new Map<Group, Visit>();
	const inBags: Visit[] = [];
	let lost = false;
	const queue: Visit[] = [{ group, from, until: at }];
	for (let visit = queue.shift(); visit; visit = queue.shift()) {
		const { group, until } = visit;
		const before = visits.get(group);
		if (before && before.until >= until) continue;
		visits.set(group, visit);
		const back = (id: ThingId | null, moment: number) => {
			const other = id ? state.groups.get(id) : undefined;
			if (other) queue.push({ group: other, from, until: Math.min(until, moment) });
			else lost = true;
		};
		for (const change of group.changes) {
			if (change.when.last < from || change.when.first > until) continue;
			if (change.fish.females + change.fish.unsexed <= 0) continue;
			if (!change.bag) {
				back(change.other, change.when.last);
				continue;
			}
			const bag = state.bags.get(change.bag);
			for (const { group: id, fish } of bag?.contents ?? []) {
				if (id === group.id || fish.males + fish.unsexed === 0) continue;
				const other = id ? state.groups.get(id) : undefined;
				if (other)
					inBags.push({
						group: other,
						from: bag?.baggedAt?.first ?? from,
						until: change.when.last,
						inBag: true
					});
				else lost = true;
			}
		}
		const began = group.started?.when.first;
		if (began === undefined || began < from) continue;
		const origin = group.origin;
		if (origin.from === 'bag') {
			const bag = state.bags.get(origin.bag);
			const moment = bag?.baggedAt?.last ?? began;
			const sources = bag?.contents.length ? bag.contents.map((content) => content.group) : [null];
			for (const source of sources) back(source, moment);
		} else if (origin.from === 'group') for (const source of origin.groups) back(source, began);
		// A brood born inside the window lived nowhere else; founders, lists and the unknown came from outside the record.
		else if (origin.from !== 'brood' && from < at) lost = true;
	}
	// Who lived with her is told as such, even if they met in a bag as well.
	const others = inBags.filter((visit, i) => {
		const first = inBags.findIndex((each) => each.group === visit.group) === i;
		return first && !visits.has(visit.group);
	});
	return { visits: [...visits.values(), ...others], lost };
}

function countAt(group: Group, at: number): CountNow {
	return countNow(
		group.counts.filter((count) => count.when.first <= at),
		group.changes.filter((change) => change.when.first <= at)
	);
}

function mayHave(count: CountNow, sex: 'males' | 'females'): boolean {
	return count.certainty === 'not known' || count.fish[sex] + count.fish.unsexed > 0;
}

function hadMales({ group, from, until, inBag = false }: Visit): boolean {
	if (inBag) return true;
	if (
		from < until &&
		(group.started?.when.first ?? -Infinity) <= from &&
		mayHave(countAt(group, from), 'males')
	)
		return true;
	if (mayHave(countAt(group, until), 'males')) return true;
	return [...group.counts, ...group.changes].some(
		({ when, fish }) => when.last >= from && when.first <= until && fish.males + fish.unsexed > 0
	);
}

/** By the day its brood was seen; a group of unknown age is old enough. */
function isTooYoung(state: ClubState, group: Group, at: number, breedsFromDays: number): boolean {
	if (group.origin.from !== 'brood') return false;
	const born = state.spawns.get(group.origin.spawn)?.seen?.when.first;
	return born !== undefined && at - born < breedsFromDays * dayMs;
}

/** Other groups of the line in the room, and those that came to be crossed with it: to be added by hand. */
export function otherGroupsOf(
	state: ClubState,
	room: ThingId,
	line: ThingId | null,
	but: readonly ThingId[]
): Group[] {
	return [...new Set(state.groups.values())].filter(
		(group) =>
			group.room === room &&
			(group.line === line || (line !== null && forCross(state, group) === line)) &&
			isStanding(group) &&
			!but.includes(group.id)
	);
}
