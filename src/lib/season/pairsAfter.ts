import { pairingAdvice, type PairingAdvice } from '#pedigree/pairingAdvice.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import type { PossibleBag, SeasonProblem } from '#planning/season/season.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Fish } from '#records/state.ts';
import type { SeasonAsking } from './seasonAsking.ts';

/** A bag by ids, as a page hands it on. */
export interface BagById {
	readonly line: ThingId;
	readonly toRoom: ThingId;
	readonly gives: readonly { readonly group: ThingId; readonly fish: Fish }[];
}
export interface PairsInRoom extends PairingAdvice {
	readonly lineName: string;
	readonly roomName: string;
}

export function bagsById(
	{ lines, rooms, holdings, sources }: SeasonProblem,
	bags: readonly PossibleBag[]
): BagById[] {
	return bags.map(({ line, holding, gives }) => ({
		line: lines[line]!.id,
		toRoom: rooms[holdings[holding]!.room]!.id,
		gives: gives.map(({ source, fish }) => ({ group: sources[source]!.id, fish }))
	}));
}

/**
 * Pairs after the plan: which fish should breed with which once these bags have moved, and what to keep of each brood?
 *
 * For every room that gets fish of a line: with those that come and without those that go.
 *
 * @param args.givers true = for every room that only gives, too
 */
export function pairsAfter(
	state: ClubState,
	{ bags, givers = false }: { readonly bags: readonly BagById[]; readonly givers?: boolean },
	{ now }: SeasonAsking
): PairsInRoom[] {
	const names = namesOf(state, null);
	const lines = [...new Set(bags.map(({ line }) => line))].sort();
	return lines.flatMap((line) => {
		if (!state.lines.has(line)) return [];
		const kinship = lineKinships.of(state, line);
		const ofLine = bags.filter((bag) => bag.line === line);
		const going = ofLine.flatMap(({ gives }) => gives);
		const giving = givers ? going.flatMap(({ group }) => state.groups.get(group)?.room ?? []) : [];
		const rooms = [...new Set([...ofLine.map(({ toRoom }) => toRoom), ...giving])].sort();
		return rooms.map((room) => ({
			...pairingAdvice(state, {
				...{ line, room, now, kinship, going },
				coming: ofLine.filter(({ toRoom }) => toRoom === room).flatMap(({ gives }) => gives)
			}),
			...{ lineName: names.line(line), roomName: names.room(room) }
		}));
	});
}
