import type { ThingId } from '#records/entry.ts';
import { addFish, fishText, noFish } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Fish } from '#records/state.ts';
import { exchangeStage } from '../exchanges/exchangeStage.ts';
import { isStanding } from '../lines/holdings.ts';
import { meetingNow } from '../meetings/meetingNow.ts';
import type { Asking } from '../question.ts';

export interface ReceiverChoice {
	readonly room: ThingId;
	readonly name: string;
	readonly keepers: string;
	/** One short line why it stands here; '' = no reason. */
	readonly why: string;
	/** An agreed exchange that this bag may be for. */
	readonly exchange: ThingId | null;
	readonly line: ThingId | null;
	/** What was agreed to move, of the member's own groups. */
	readonly promised: readonly { readonly group: ThingId | null; readonly fish: Fish }[];
	readonly closed: boolean;
}
export interface GroupChoice {
	readonly id: ThingId;
	readonly name: string;
	readonly line: ThingId | null;
	readonly lineName: string;
	readonly lineCode: string;
	readonly room: ThingId;
	readonly fish: Fish;
	/** Fish leave no closed tank and no quarantine; '' = free. */
	readonly caution: '' | 'closed tank' | 'quarantine';
}
export interface BagStart {
	/** A bag that this number is logged for already: saying more of it adds to that bag. */
	readonly already: { readonly id: ThingId; readonly words: string; readonly to: string } | null;
	/** Likely receivers first. */
	readonly receivers: readonly ReceiverChoice[];
	readonly myRooms: readonly { readonly id: ThingId; readonly name: string }[];
	readonly groups: readonly GroupChoice[];
	/** The meeting of today, which the bag is then logged at. */
	readonly meeting: { readonly id: ThingId; readonly name: string } | null;
	readonly lines: readonly {
		readonly id: ThingId;
		readonly name: string;
		readonly code: string;
		readonly movement: string;
	}[];
}

/**
 * Bag start: what does one need to log a bag quickly: who may it be for, and which fish may be in it?
 *
 * Receivers with an agreed exchange with one of the member's rooms come first, then rooms that come to today's
 * meeting, then rooms that ask for a line that the member has, then rooms that got a bag from here before, then all.
 *
 * @param args.number the number typed so far, as records keep it; '' = none
 */
export function bagStart(state: ClubState, args: { readonly number: string }, asking: Asking): BagStart {
	const names = namesOf(state, null);
	const mine = state.members.get(asking.me)?.rooms ?? [];
	const meeting = meetingNow(state, asking.now);
	const groups = [...new Set(state.groups.values())].filter(
		(group) => group.room !== null && mine.includes(group.room) && isStanding(group)
	);
	const lines = new Set(groups.map((group) => group.line));
	const bags = [...new Set(state.bags.values())];
	const agreed = [...state.exchanges.values()].filter(
		(one) =>
			one.gives.some((give) => mine.includes(give.fromRoom)) &&
			exchangeStage(state, one, asking.now).word === 'agreed'
	);
	const coming = new Set(meeting?.attending.filter((one) => one.coming).map((one) => one.room));
	const before = new Set(
		bags.flatMap((bag) =>
			bag.fromRoom && mine.includes(bag.fromRoom) && bag.to?.to === 'room' ? [bag.to.room] : []
		)
	);
	const ranked = [...state.rooms.values()].flatMap((room) => {
		if (!room.known || mine.includes(room.id)) return [];
		const exchange = agreed.find((one) => one.toRoom === room.id) ?? null;
		const wants = room.wants.find((want) => !want.ended && lines.has(want.line));
		const [rank, why] = exchange
			? [0, `agreed: ${fishWords(exchange)} ${exchange.line ? `of ${names.line(exchange.line)}` : ''}`.trim()]
			: coming.has(room.id)
				? [1, wants ? `comes today, asks for ${names.line(wants.line)}` : 'comes today']
				: wants
					? [2, `asks for ${names.line(wants.line)}`]
					: before.has(room.id)
						? [3, 'had a bag from you before']
						: [4, ''];
		return [{ rank, why, room, exchange }];
	});
	ranked.sort((a, b) => a.rank - b.rank || a.room.name.localeCompare(b.room.name));
	const already = args.number ? bags.find((bag) => bag.number === args.number) : undefined;
	return {
		already: already
			? {
					id: already.id,
					words: [
						already.line ? names.line(already.line) : '',
						already.fromRoom ? `from ${names.room(already.fromRoom)}` : ''
					]
						.filter(Boolean)
						.join(' '),
					to: already.to?.to === 'room' ? names.room(already.to.room) : ''
				}
			: null,
		receivers: ranked.map(({ room, why, exchange }) => ({
			room: room.id,
			name: names.room(room.id),
			keepers: room.keepers.map((id) => names.member(id)).join(' and '),
			why,
			exchange: exchange?.id ?? null,
			line: exchange?.line ?? null,
			promised: (exchange?.gives ?? [])
				.filter((give) => mine.includes(give.fromRoom))
				.map(({ group, fish }) => ({ group, fish })),
			closed: room.closed !== null
		})),
		myRooms: mine.map((id) => ({ id, name: names.room(id) })),
		groups: groups
			.map((group) => ({
				id: group.id,
				name: names.group(group.id),
				line: group.line,
				lineName: group.line ? names.line(group.line) : '',
				lineCode: group.line ? (state.lines.get(group.line)?.code ?? '') : '',
				room: group.room ?? '',
				fish: group.now.fish,
				caution: caution(state, group.id, asking.now)
			}))
			.sort((a, b) => a.lineName.localeCompare(b.lineName) || a.name.localeCompare(b.name)),
		meeting: meeting ? { id: meeting.id, name: names.meeting(meeting.id) } : null,
		lines: [...state.lines.values()]
			.filter((line) => line.known)
			.map((line) => ({ id: line.id, name: names.line(line.id), code: line.code, movement: line.movement }))
			.sort((a, b) => Number(lines.has(b.id)) - Number(lines.has(a.id)) || a.name.localeCompare(b.name))
	};

	function fishWords(exchange: { readonly gives: readonly { readonly fish: Fish }[] }): string {
		const fish = exchange.gives.reduce((sum, give) => addFish(sum, give.fish), noFish);
		return fishText(fish);
	}
}

function caution(state: ClubState, id: ThingId, now: number): GroupChoice['caution'] {
	const group = state.groups.get(id);
	if (!group) return '';
	if (group.closed || (group.room && state.rooms.get(group.room)?.closed)) return 'closed tank';
	return group.quarantine && group.quarantine.untilMs > now ? 'quarantine' : '';
}
