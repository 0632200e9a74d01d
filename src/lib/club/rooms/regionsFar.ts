import type { EntryId, ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import { partIn } from '../people/partIn.ts';
import { saidBy, saidByWords } from '../people/saidBy.ts';
import type { Asking } from '../question.ts';

export interface RegionPair {
	readonly one: string;
	readonly other: string;
	readonly far: boolean;
	/** Who said that they are far apart, when (ISO 8601-2) and in which entry; null = they are not. */
	readonly said: { readonly name: string; readonly day: string; readonly entry: EntryId } | null;
}
export interface RegionsFar {
	readonly club: ThingId;
	/** Officers decide. */
	readonly mayDecide: boolean;
	/** All pairs of regions that rooms are in, and those that were once said to be far apart, in order of names. */
	readonly pairs: readonly RegionPair[];
}

/** Regions far: between which regions of the club's rooms is a trip a far one? */
export function regionsFar(state: ClubState, _args: Record<string, never>, asking: Asking): RegionsFar {
	const names = namesOf(state, null);
	const regions = [
		...new Set([
			...[...state.rooms.values()].flatMap(({ known, region }) => (known && region ? [region] : [])),
			...state.club.far.flatMap(({ one, other }) => [one, other])
		])
	].sort();
	const rooms = new Set([...state.rooms.values()].map(({ region }) => region));
	return {
		club: state.club.id,
		mayDecide: partIn(state, asking.me, null, null).officer,
		pairs: regions.flatMap((one, i) =>
			regions.slice(i + 1).flatMap((other): RegionPair[] => {
				const word = state.club.far.find((pair) => pair.one === one && pair.other === other);
				if (!word && !(rooms.has(one) && rooms.has(other))) return [];
				const name = word ? saidByWords(saidBy(word, names)) : '';
				return [
					{
						...{ one, other, far: word !== undefined },
						said: word ? { name, day: word.when.text, entry: word.entry } : null
					}
				];
			})
		)
	};
}
