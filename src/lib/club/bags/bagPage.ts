import type { ThingId } from '#records/entry.ts';
import { namesOf, sentenceOf } from '#records/names.ts';
import type { Bag, BagTo, ClubState, Fish } from '#records/state.ts';
import { isStanding } from '../lines/holdings.ts';
import { partIn, type Part } from '../people/partIn.ts';
import { partNamed } from '../people/partNamed.ts';
import type { Asking } from '../question.ts';
import { bagReceiver } from './bagReceiver.ts';
import { allBags, bagRow, type BagRow } from './bagRow.ts';
import { spoken, type Spoken } from './spoken.ts';

export interface ContentSaid {
	readonly group: ThingId | null;
	readonly name: string;
	readonly fish: Fish;
}
/** What one person said of the bag, to be read side by side with what others said. */
export interface BagVersion extends Spoken {
	readonly side: 'giver' | 'receiver' | 'other';
	readonly line: string;
	readonly from: string;
	readonly to: string;
	readonly contents: readonly ContentSaid[];
	readonly note: string;
}
export interface BagPage extends BagRow {
	readonly known: boolean;
	readonly versions: readonly BagVersion[];
	readonly handOvers: readonly Spoken[];
	readonly arrivals: readonly (Spoken & {
		readonly room: string;
		readonly group: ThingId;
		readonly alive: Fish;
		readonly dead: number;
		readonly certainty: string;
	})[];
	readonly dayCounts: readonly (Spoken & { readonly alive: number; readonly note: string })[];
	readonly givenBack: Spoken | null;
	readonly failed: (Spoken & { readonly how: 'died' | 'lost' | 'elsewhere'; readonly note: string }) | null;
	readonly settled: (Spoken & { readonly note: string }) | null;
	readonly differences: readonly string[];
	/** Other bags that carry the same number. */
	readonly clash: readonly BagRow[];
	/** Ids of bags that became this one. */
	readonly ids: readonly ThingId[];
	/** Statements that do not count yet, and whether this member's tap would settle it. */
	readonly leftOut: readonly (Spoken & { readonly sentence: string; readonly mayConfirm: boolean })[];
	readonly raw: {
		readonly contents: Bag['contents'];
		readonly to: BagTo | null;
		readonly line: ThingId | null;
		readonly fromRoom: ThingId | null;
	};
	readonly giver: Part;
	readonly receiver: Part;
	/** Runs the meeting that the bag is logged at. */
	readonly runs: boolean;
	readonly rooms: readonly { readonly id: ThingId; readonly name: string }[];
	/** Groups of the giver's room that the fish may be of, for filling in the rest. */
	readonly groupsOfGiver: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly line: ThingId | null;
		readonly fish: Fish;
	}[];
	readonly lines: readonly { readonly id: ThingId; readonly name: string; readonly code: string }[];
	readonly meetingName: string;
}

/**
 * Bag page: what is in this bag, where is it, and who said so?
 *
 * @param args.bag a bag's id, or the number on its label
 */
export function bagPage(state: ClubState, args: { readonly bag: string }, asking: Asking): BagPage | null {
	const bag =
		state.bags.get(args.bag) ?? allBags(state).find((one) => one.number !== '' && one.number === args.bag);
	if (!bag) return null;
	const names = namesOf(state, asking.fold);
	const receiver = bagReceiver(bag);
	const roles = state.members.get(asking.me)?.roles ?? [];
	const runs =
		bag.meeting !== null && roles.some((role) => role.role === 'runner' && role.of === bag.meeting);
	const giverPart = partIn(state, asking.me, bag.fromRoom, bag.line);
	const receiverPart = partIn(state, asking.me, receiver, bag.line);
	const hasPart = giverPart.any || receiverPart.any || runs;
	const of = (said: Parameters<typeof spoken>[0]) => spoken(said, names, asking);
	return {
		...bagRow(state, bag, names, asking),
		known: bag.known,
		versions: bag.statements.map((said) => ({
			...of(said),
			side: said.side,
			line: said.line ? names.line(said.line) : '',
			from: said.fromRoom ? names.room(said.fromRoom) : '',
			to: toWords(said.to, (id) => names.room(id)),
			contents: said.contents.map(({ group, fish }) => ({
				group,
				fish,
				name: group ? names.group(group) : ''
			})),
			note: said.note
		})),
		handOvers: bag.handOvers.map(of),
		arrivals: bag.arrivals.map((said) => ({
			...of(said),
			room: names.room(said.room),
			group: said.group,
			alive: said.alive,
			dead: said.dead,
			certainty: said.certainty
		})),
		dayCounts: bag.dayCounts.map((said) => ({ ...of(said), alive: said.alive, note: said.note })),
		givenBack: bag.givenBack ? of(bag.givenBack) : null,
		failed: bag.failed ? { ...of(bag.failed), how: bag.failed.how, note: bag.failed.note } : null,
		settled: bag.settled ? { ...of(bag.settled), note: bag.settled.note } : null,
		differences: bag.differences,
		clash: bag.numberClash.flatMap((id) => {
			const other = state.bags.get(id);
			return other && other !== bag ? [bagRow(state, other, names, asking)] : [];
		}),
		ids: bag.ids,
		leftOut: bag.leftOut.flatMap((id) => {
			const entry = asking.fold.entry(id);
			const view = asking.fold.view(id);
			if (!entry || !view) return [];
			const said = {
				entry: id,
				by: entry.by,
				toldBy: entry.toldBy ?? null,
				when: { text: entry.happened, first: 0, last: 0 }
			};
			const concerns = hasPart || partNamed(state, asking.me, entry);
			const mayConfirm = view.verdict.name === 'told by' && concerns && entry.by !== asking.me;
			return [{ ...of(said), sentence: sentenceOf(entry, names), mayConfirm }];
		}),
		raw: { contents: bag.contents, to: bag.to, line: bag.line, fromRoom: bag.fromRoom },
		giver: giverPart,
		receiver: receiverPart,
		runs,
		rooms: [...state.rooms.values()]
			.filter((room) => room.known)
			.map((room) => ({ id: room.id, name: names.room(room.id) }))
			.sort((a, b) => a.name.localeCompare(b.name)),
		groupsOfGiver: [...new Set(state.groups.values())]
			.filter(
				(group) =>
					bag.fromRoom !== null &&
					group.room === bag.fromRoom &&
					isStanding(group) &&
					(!bag.line || group.line === bag.line)
			)
			.map((group) => ({
				id: group.id,
				name: names.group(group.id),
				line: group.line,
				fish: group.now.fish
			})),
		lines: [...state.lines.values()]
			.filter((line) => line.known)
			.map((line) => ({ id: line.id, name: names.line(line.id), code: line.code }))
			.sort((a, b) => a.name.localeCompare(b.name)),
		meetingName: bag.meeting ? names.meeting(bag.meeting) : ''
	};
}

/** A receiver in words that fit after "for"; '' = not said. */
export function toWords(to: BagTo | null, room: (id: ThingId) => string): string {
	if (!to) return '';
	if (to.to === 'room') return room(to.room);
	if (to.to === 'open') return 'not known yet';
	return to.name || (to.to === 'guest' ? 'a guest' : 'someone outside the club');
}
