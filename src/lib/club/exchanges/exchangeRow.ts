import type { ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import type { Names } from '#records/kind.ts';
import type { Answer, ClubState, Exchange, Fish, Said } from '#records/state.ts';
import { spoken, type Spoken } from '../bags/spoken.ts';
import { partIn } from '../people/partIn.ts';
import type { Asking } from '../question.ts';
import { exchangeStage, type ExchangeNow } from './exchangeStage.ts';

/** One side of an exchange and what it said. */
export interface Side {
	readonly room: ThingId;
	readonly name: string;
	readonly keepers: string;
	/** Whose answer it is when it comes by phone; '' = nobody keeps the room. */
	readonly keeper: string;
	readonly role: 'gives' | 'receives';
	readonly fish: Fish;
	readonly answer: (Spoken & Pick<Answer, 'answer' | 'until' | 'reason' | 'byPhone'>) | null;
	/** The member keeps this room. */
	readonly mine: boolean;
	/** The member may write what this side said on the phone. */
	readonly byPhone: boolean;
}
export interface ExchangeRow {
	readonly id: ThingId;
	readonly now: ExchangeNow;
	readonly line: { readonly id: ThingId; readonly name: string; readonly code: string } | null;
	readonly fish: Fish;
	readonly from: string;
	readonly to: string;
	readonly toRoom: ThingId | null;
	readonly sides: readonly Side[];
	readonly meeting: { readonly id: ThingId; readonly name: string; readonly date: string } | null;
	readonly mine: boolean;
	/** What this member is waited for; '' = nothing. */
	readonly waitsForMe: '' | 'answer' | 'bag' | 'receive' | 'send' | 'plan B';
	readonly lastEntry: string;
	readonly lastAt: number;
}

export function exchangeRow(state: ClubState, exchange: Exchange, names: Names, asking: Asking): ExchangeRow {
	const now = exchangeStage(state, exchange, asking.now);
	const sides = sidesOf(state, exchange, names, asking);
	const line = exchange.line ? state.lines.get(exchange.line) : undefined;
	const meeting = exchange.meeting ? state.meetings.get(exchange.meeting) : undefined;
	const said: Said[] = [exchange.proposed, exchange.asked, exchange.calledOff, ...exchange.answers].filter(
		(one) => one !== null
	);
	const last = said.reduce<Said | null>(
		(best, one) => (!best || one.when.last >= best.when.last ? one : best),
		null
	);
	const row = {
		id: exchange.id,
		now,
		line: exchange.line
			? { id: exchange.line, name: names.line(exchange.line), code: line?.code ?? '' }
			: null,
		fish: exchange.gives.reduce((sum, give) => addFish(sum, give.fish), noFish),
		from: [...new Set(exchange.gives.map((give) => names.room(give.fromRoom)))].join(' and '),
		to: exchange.toRoom ? names.room(exchange.toRoom) : '',
		toRoom: exchange.toRoom,
		sides,
		meeting: meeting ? { id: meeting.id, name: names.meeting(meeting.id), date: meeting.date } : null,
		mine: sides.some((side) => side.mine),
		lastEntry: last?.entry ?? exchange.entries.at(-1) ?? '',
		lastAt: last?.when.last ?? 0
	};
	return { ...row, waitsForMe: waitsForMe(exchange, row, asking) };
}

function waitsForMe(
	exchange: Exchange,
	row: Omit<ExchangeRow, 'waitsForMe'>,
	asking: Asking
): ExchangeRow['waitsForMe'] {
	const { word, needs } = row.now;
	const proposedByMe = exchange.proposed?.by === asking.me;
	const unanswered = row.sides.some((side) => side.mine && !side.answer);
	if (
		(word === 'asked' || word === 'put off') &&
		(unanswered || (row.mine && needs.includes('the day has come')))
	)
		return 'answer';
	if (word === 'agreed' && row.sides.some((side) => side.mine && side.role === 'gives')) return 'bag';
	if (
		(word === 'bagged' || word === 'handed over') &&
		row.sides.some((side) => side.mine && side.role === 'receives')
	)
		return 'receive';
	if (word === 'proposed' && proposedByMe) return 'send';
	if (word === 'declined' && proposedByMe) return 'plan B';
	return '';
}

function sidesOf(state: ClubState, exchange: Exchange, names: Names, asking: Asking): Side[] {
	const gives = [...new Set(exchange.gives.map((give) => give.fromRoom))].map((room) => ({
		room,
		role: 'gives' as const
	}));
	const rooms = [
		...gives,
		...(exchange.toRoom ? [{ room: exchange.toRoom, role: 'receives' as const }] : [])
	];
	return rooms.map(({ room, role }) => {
		const answer = exchange.answers.find((one) => one.room === room) ?? null;
		const part = partIn(state, asking.me, room, exchange.line);
		const fish = exchange.gives
			.filter((give) => role === 'receives' || give.fromRoom === room)
			.reduce((sum, give) => addFish(sum, give.fish), noFish);
		return {
			room,
			name: names.room(room),
			keepers: (state.rooms.get(room)?.keepers ?? []).map((id) => names.member(id)).join(' and '),
			keeper: state.rooms.get(room)?.keepers[0] ?? '',
			role,
			fish,
			answer: answer
				? {
						...spoken(answer, names, asking),
						answer: answer.answer,
						until: answer.until,
						reason: answer.reason,
						byPhone: answer.byPhone
					}
				: null,
			mine: part.keeps,
			byPhone: !part.keeps && (part.officer || part.coordinates)
		};
	});
}
