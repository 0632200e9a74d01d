/** What is written about an exchange. */
import type { Draft, ThingId } from '#records/entry.ts';
import type { ExchangeGive } from '#records/state.ts';

export interface ExchangeSaid {
	readonly exchange: ThingId;
	readonly line: ThingId;
	readonly gives: readonly ExchangeGive[];
	readonly toRoom: ThingId;
	readonly meeting: ThingId | null;
	readonly note: string;
	/** The sentence and figures that it was proposed with. */
	readonly reason: string;
	/** True = sent to both sides at once. */
	readonly asked: boolean;
}

export function proposed(said: ExchangeSaid, happened: string): Draft {
	const rooms = said.gives.map((give) => give.fromRoom);
	const about = new Set([
		said.exchange,
		said.line,
		said.toRoom,
		...rooms,
		...(said.meeting ? [said.meeting] : [])
	]);
	return {
		kind: 'exchange/proposed',
		happened,
		about: [...about],
		body: { ...said, outcross: null, plan: null }
	};
}

export function asked(exchange: ThingId, line: ThingId, happened: string): Draft {
	return { kind: 'exchange/asked', happened, about: [exchange, line], body: { exchange, line } };
}

export interface AnswerSaid {
	readonly exchange: ThingId;
	readonly line: ThingId;
	readonly room: ThingId;
	readonly answer: 'yes' | 'no' | 'later';
	/** ISO date for `later`; '' otherwise. */
	readonly until?: string;
	readonly reason?: string;
}

/** @param toldBy the keeper who said it on the phone, when somebody else writes it */
export function answered(said: AnswerSaid, happened: string, toldBy?: string): Draft {
	const { exchange, line, room, answer, until = '', reason = '' } = said;
	return {
		kind: 'exchange/answered',
		happened,
		about: [exchange, line, room],
		...(toldBy ? { toldBy } : {}),
		body: { exchange, line, room, answer, until, reason }
	};
}

export function calledOff(exchange: ThingId, line: ThingId, happened: string, reason: string): Draft {
	return { kind: 'exchange/calledOff', happened, about: [exchange, line], body: { exchange, line, reason } };
}
