import type { EntryId } from '#records/entry.ts';
import type { Names } from '#records/kind.ts';
import { kinds } from '#records/kinds.ts';
import { namesOf, sentenceOf } from '#records/names.ts';
import { idTime } from '#records/rank.ts';
import type { ClubState } from '#records/state.ts';
import { allBags, bagRow } from '../bags/bagRow.ts';
import { bagReceiver } from '../bags/bagReceiver.ts';
import { exchangeRow } from '../exchanges/exchangeRow.ts';
import { partIn } from '../people/partIn.ts';
import { partNamed } from '../people/partNamed.ts';
import { dayMs, type Asking } from '../question.ts';
import type { Need } from './need.ts';
import { placedThings, type PlacedThing } from './placedThings.ts';

/** What nobody took up for so long is no longer pressed on anybody; histories keep it (own choice). */
const pressingDays = 90;
const settling: readonly string[] = [
	'two bags with one number',
	'said differently',
	'not arrived',
	'day-7 count'
];

/**
 * Needs you: what waits for this member, with where to do something about it?
 *
 * Own words that do not count; what others said of the own rooms and waits for one tap; doubts and two versions, for
 * those they concern and those who decide; bags to settle or to count; exchanges that wait. Read from the club's record
 * alone: private words of rooms play no part in it, whoever asks. The newest first within each sort.
 */
export function needsYou(state: ClubState, _args: unknown, asking: Asking): Need[] {
	const names = namesOf(state, asking.fold);
	const needs = [
		...exchangeNeeds(state, names, asking),
		...bagNeeds(state, names, asking),
		...placedThings(state).flatMap((placed) => thingNeeds(placed, state, names, asking))
	];
	const once = new Map(needs.map((need) => [need.key, need]));
	return [...once.values()].sort((a, b) => b.at - a.at || (a.key < b.key ? 1 : -1));
}

function exchangeNeeds(state: ClubState, names: Names, asking: Asking): Need[] {
	const mine = new Set(state.members.get(asking.me)?.rooms);
	return [...state.exchanges.values()].flatMap((exchange): Need[] => {
		const rooms = [exchange.toRoom, ...exchange.gives.map((give) => give.fromRoom)];
		if (exchange.proposed?.by !== asking.me && !rooms.some((room) => room && mine.has(room))) return [];
		const row = exchangeRow(state, exchange, names, asking);
		const old = row.waitsForMe === 'plan B' && asking.now - row.lastAt > pressingDays * dayMs;
		if (row.waitsForMe === '' || old) return [];
		return [
			{
				...{ sort: 'exchange', code: row.waitsForMe, key: `exchange ${row.id}`, who: '', at: row.lastAt },
				title: `${row.line?.name ?? 'A line'}, ${row.from} to ${row.to}`,
				thing: { type: 'exchange', id: row.id }
			}
		];
	});
}

function bagNeeds(state: ClubState, names: Names, asking: Asking): Need[] {
	const member = state.members.get(asking.me);
	const mine = new Set(member?.rooms);
	const runs = new Set(member?.roles.flatMap(({ role, of }) => (role === 'runner' && of ? [of] : [])));
	return allBags(state).flatMap((bag): Need[] => {
		const receiver = bagReceiver(bag);
		const receives = receiver !== null && mine.has(receiver);
		const concerns = receives || (bag.fromRoom !== null && mine.has(bag.fromRoom));
		if (!concerns && !(bag.meeting && runs.has(bag.meeting))) return [];
		const row = bagRow(state, bag, names, asking);
		return row.needs
			.filter((need) => settling.includes(need) && (need !== 'day-7 count' || receives))
			.map((code): Need => {
				const title = [names.bag(bag.id), row.line?.name].filter(Boolean).join(', ');
				const thing = { type: 'bag', id: bag.id } as const;
				return { sort: 'bag', code, key: `bag ${bag.id} ${code}`, who: '', at: row.lastAt, title, thing };
			});
	});
}

function thingNeeds(
	{ ref, thing, rooms, line }: PlacedThing,
	state: ClubState,
	names: Names,
	asking: Asking
): Need[] {
	const { fold, me, now } = asking;
	const part = partIn(state, me, null, line);
	const keeps = rooms.some((room) => partIn(state, me, room, null).keeps);
	const needs: Need[] = [];
	const told = (id: EntryId) => {
		const entry = fold.entry(id);
		const sentence = sentenceOf(entry ?? null, names);
		return {
			title: sentence.charAt(0).toUpperCase() + sentence.slice(1),
			who: entry ? names.member(entry.by) : '',
			at: idTime(id) ?? 0,
			thing: ref
		};
	};
	for (const id of thing.leftOut) {
		const entry = fold.entry(id);
		const { verdict, n } = fold.view(id) ?? {};
		if (!entry || !verdict || verdict.name === 'counts') continue;
		if (now - (idTime(id) ?? 0) > pressingDays * dayMs) continue;
		if (entry.by === me) {
			// A decision that the server has not numbered only waits for the signal.
			if (verdict.name === 'waiting' && n === null && kinds.get(entry.kind)?.nature === 'decision') continue;
			needs.push({ sort: 'own', code: verdict.name, why: verdict.why, key: `own ${id}`, ...told(id) });
			continue;
		}
		const concerns = keeps || part.coordinates || (ref.type === 'bag' && partNamed(state, me, entry));
		if (verdict.name === 'told by' && concerns)
			needs.push({ sort: 'confirm', key: `confirm ${id}`, ...told(id) });
	}
	const decides = part.officer || part.coordinates;
	if (!keeps && !decides) return needs;
	for (const dispute of thing.disputes) {
		// Who doubted has said so; the word is with the others.
		if (dispute.decided || (dispute.by === me && !decides)) continue;
		const { reason } = dispute;
		const doubt = { reason, by: names.member(dispute.by), at: dispute.when.last };
		const code = decides ? 'decide' : 'look';
		needs.push({ ...told(dispute.of), sort: 'doubt', code, ...doubt, key: `doubt ${dispute.entry}` });
	}
	for (const set of thing.twoVersions) {
		const last = [...set].sort().at(-1) ?? '';
		needs.push({ sort: 'two versions', key: `versions ${[...set].sort().join(' ')}`, ...told(last) });
	}
	return needs;
}
