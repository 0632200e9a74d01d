import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { exchangeRow, type ExchangeRow } from './exchangeRow.ts';

export interface ExchangesOverview {
	/** An answer, a bag or a plan B is waited for from this member. */
	readonly waitForMe: readonly ExchangeRow[];
	/** Open ones with something that a person should look at. */
	readonly needLook: readonly ExchangeRow[];
	readonly open: readonly ExchangeRow[];
	readonly over: readonly ExchangeRow[];
}

/** Exchanges overview: which exchanges need me, which go on, which are over? */
export function exchangesOverview(
	state: ClubState,
	args: { readonly line?: ThingId; readonly room?: ThingId },
	asking: Asking
): ExchangesOverview {
	const names = namesOf(state, null);
	const rows = [...state.exchanges.values()]
		.filter((one) => one.known && (!args.line || one.line === args.line))
		.map((one) => exchangeRow(state, one, names, asking))
		.filter((row) => !args.room || row.sides.some((side) => side.room === args.room))
		.sort((a, b) => b.lastAt - a.lastAt || (a.id < b.id ? 1 : -1));
	const waits = rows.filter((row) => row.waitsForMe !== '');
	const look = rows.filter((row) => row.waitsForMe === '' && row.now.open && row.now.needs.length > 0);
	const rest = rows.filter((row) => !waits.includes(row) && !look.includes(row));
	return {
		waitForMe: waits,
		needLook: look,
		open: rest.filter((row) => row.now.open),
		over: rest.filter((row) => !row.now.open)
	};
}
