import { forCross } from '#club/groups/forCross.ts';
import { crossedGroups, type Crossed } from '#club/lines/crossedGroups.ts';
import { isStanding, type Holding } from '#club/lines/holdings.ts';
import { dayText } from '#records/dayText.ts';
import type { ThingId } from '#records/entry.ts';
import { addFish, howManyFish, noFish } from '#records/fishCount.ts';
import { happened } from '#records/happened.ts';
import type { Names } from '#records/kind.ts';
import type { ClubState, Exchange, Fish, Group } from '#records/state.ts';
import type { LineMeans } from './lineMeans.ts';
import type { SeasonSettings } from './seasonSettings.ts';
import type { LeftOutOfSeason } from './seasonWords.ts';
import { spareFish, type Spare } from './spareFish.ts';

const youngStages = new Set(['laid', 'eyed', 'hatched', 'free-swimming', 'eggs in peat']);

export interface FishOfRoom {
	readonly room: ThingId;
	/** Groups that breed on. */
	readonly groups: readonly Group[];
}
export interface FishOfLine {
	readonly rooms: readonly FishOfRoom[];
	readonly sources: readonly { readonly group: Group; readonly spare: Spare }[];
	readonly leftOut: readonly LeftOutOfSeason[];
}

export interface SortingFish {
	readonly state: ClubState;
	readonly settings: SeasonSettings;
	readonly names: Names;
	readonly when: number;
	readonly stops: ReadonlyMap<ThingId, string>;
	readonly promises: readonly Exchange[];
	/** What stands of the plan that is repaired: those fish can be given, whatever else is spare. */
	readonly standing: readonly Exchange[];
}

/** Fish of a line: which groups breed on in which room, which can give, and why the others give nothing. */
export function fishOfLine(
	{ state, settings, names, when, stops, promises, standing }: SortingFish,
	line: ThingId,
	held: readonly Holding[],
	means: LineMeans
): FishOfLine {
	const leftOut: LeftOutOfSeason[] = [];
	const rooms: FishOfRoom[] = [];
	const sources: { group: Group; spare: Spare }[] = [];
	const promised = promisedFish(state, line, promises);
	const given = promisedFish(state, line, standing);
	const isPure = state.lines.get(line)?.kind === 'conservation';
	const crossed = isPure ? crossedGroups(state, line) : new Map<ThingId, Crossed>();
	const zone = state.club.timeZone || 'UTC';
	const endOf = (day: string) => happened(day, zone)?.last ?? 0;
	for (const holding of [...held].sort((a, b) => (a.room < b.room ? -1 : 1))) {
		const here = holding.groups.flatMap((id) => state.groups.get(id) ?? []).filter(isStanding);
		if (here.length === 0) continue;
		const breeding: Group[] = [];
		for (const group of here.sort((a, b) => (a.id < b.id ? -1 : 1))) {
			const name = names.group(group.id);
			const out = (why: string) =>
				leftOut.push({
					...{ line, group: group.id, groupName: name, room: holding.room },
					...{ roomName: names.room(holding.room), why }
				});
			if (!means.kinship.knows(group.id)) continue;
			if (group.closed) {
				out(`${name}: its tank is closed.`);
				continue;
			}
			const outcross = forCross(state, group);
			if (outcross) {
				out(`${name}: came to be crossed with ${names.line(outcross)}.`);
				continue;
			}
			const mixed = isPure ? crossed.get(group.id) : undefined;
			if (mixed) {
				const others = mixed.with.map((one) => names.line(one)).join(' and ');
				out(`${name}: ${mixed.sure ? '' : 'perhaps '}crossed with ${others}, and the line is kept pure.`);
				continue;
			}
			if (group.mixes.length > 0) {
				out(`${name}: strangers may be among these fish. Settle that first.`);
				continue;
			}
			if (group.stage && youngStages.has(group.stage)) {
				out(`${name}: still growing up.`);
				continue;
			}
			breeding.push(group);
			const stop = stops.get(holding.room);
			if (stop) {
				out(stop);
				continue;
			}
			if (group.quarantine && group.quarantine.untilMs >= when) {
				const last = dayText(new Date(group.quarantine.untilMs - 1).toISOString().slice(0, 10));
				out(`${name}: in quarantine until ${last}.`);
				continue;
			}
			if (settings.notFrom.includes(group.id)) {
				out(`${name}: you left it out.`);
				continue;
			}
			if (group.now.certainty === 'not known') {
				out(`${name}: nobody has counted these fish.`);
				continue;
			}
			const spare = atLeast(
				spareFish(group, promised.get(group.id) ?? noFish, when, endOf),
				given.get(group.id) ?? noFish
			);
			if (howManyFish(spare.fish) > 0) sources.push({ group, spare });
			else
				out(
					howManyFish(promised.get(group.id) ?? noFish) > 0
						? `${name}: what it can spare is promised already.`
						: `${name}: no fish to spare without giving up its breeding group.`
				);
		}
		if (breeding.length > 0) rooms.push({ room: holding.room, groups: breeding });
	}
	return { rooms, sources, leftOut };
}

function atLeast({ fish, why }: Spare, least: Fish): Spare {
	return {
		fish: {
			males: Math.max(fish.males, least.males),
			females: Math.max(fish.females, least.females),
			unsexed: Math.max(fish.unsexed, least.unsexed)
		},
		why
	};
}

/** Fish that open exchanges promise, by group; a promise that names no group is the room's largest group's. */
function promisedFish(state: ClubState, line: ThingId, promises: readonly Exchange[]): Map<ThingId, Fish> {
	const promised = new Map<ThingId, Fish>();
	for (const exchange of promises) {
		if (exchange.line !== line) continue;
		for (const give of exchange.gives) {
			const group = give.group ?? largestGroup(state, line, give.fromRoom);
			if (group) promised.set(group, addFish(promised.get(group) ?? noFish, give.fish));
		}
	}
	return promised;
}

function largestGroup(state: ClubState, line: ThingId, room: ThingId): ThingId | null {
	const here = [...new Set(state.groups.values())].filter(
		(group) => group.line === line && group.room === room && isStanding(group)
	);
	const [largest] = here.sort(
		(a, b) => howManyFish(b.now.fish) - howManyFish(a.now.fish) || (a.id < b.id ? -1 : 1)
	);
	return largest?.id ?? null;
}
