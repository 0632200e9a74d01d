import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Fish } from '#records/state.ts';
import { bagRow, type BagRow } from '../bags/bagRow.ts';
import { spoken, type Spoken } from '../bags/spoken.ts';
import { partIn } from '../people/partIn.ts';
import type { Asking } from '../question.ts';
import { exchangeRow, type ExchangeRow } from './exchangeRow.ts';

export interface ExchangePage extends ExchangeRow {
	readonly known: boolean;
	readonly gives: readonly {
		readonly room: string;
		readonly roomId: ThingId;
		readonly group: ThingId | null;
		readonly groupName: string;
		readonly fish: Fish;
		readonly stop: '' | 'closed tank' | 'quarantine';
	}[];
	readonly note: string;
	readonly reason: string;
	/** Name of the line that these fish are to be crossed with on purpose; '' = none. */
	readonly crossWith: string;
	readonly proposed: Spoken | null;
	readonly asked: Spoken | null;
	readonly calledOff: (Spoken & { readonly why: string }) | null;
	readonly bags: readonly BagRow[];
	/** May send it to both sides, and call it off. */
	readonly maySend: boolean;
	readonly mayCallOff: boolean;
	readonly movement: 'none' | 'listed' | 'native' | 'restricted';
}

/** Exchange page: which fish should move where, why, and what has each side said? */
export function exchangePage(
	state: ClubState,
	args: { readonly exchange: ThingId },
	asking: Asking
): ExchangePage | null {
	const exchange = state.exchanges.get(args.exchange);
	if (!exchange) return null;
	const names = namesOf(state, asking.fold);
	const row = exchangeRow(state, exchange, names, asking);
	const part = partIn(state, asking.me, null, exchange.line);
	const speaks = part.officer || part.coordinates || row.mine || exchange.proposed?.by === asking.me;
	const early = ['proposed', 'asked', 'agreed', 'put off'].includes(row.now.word);
	return {
		...row,
		known: exchange.known,
		gives: exchange.gives.map(({ fromRoom, group, fish }) => {
			const there = group ? state.groups.get(group) : undefined;
			const closed = there?.closed || state.rooms.get(fromRoom)?.closed;
			const apart = there?.quarantine && there.quarantine.untilMs > asking.now;
			return {
				room: names.room(fromRoom),
				roomId: fromRoom,
				group,
				groupName: group ? names.group(group) : '',
				fish,
				stop: closed ? ('closed tank' as const) : apart ? ('quarantine' as const) : ('' as const)
			};
		}),
		note: exchange.note,
		reason: exchange.reason,
		crossWith: exchange.outcross ? names.line(exchange.outcross) : '',
		proposed: exchange.proposed ? spoken(exchange.proposed, names, asking) : null,
		asked: exchange.asked ? spoken(exchange.asked, names, asking) : null,
		calledOff: exchange.calledOff
			? { ...spoken(exchange.calledOff, names, asking), why: exchange.calledOff.reason }
			: null,
		bags: [...new Set(exchange.bags.flatMap((id) => state.bags.get(id) ?? []))].map((bag) =>
			bagRow(state, bag, names, asking)
		),
		maySend: speaks && row.now.word === 'proposed',
		mayCallOff: speaks && early,
		movement: (exchange.line && state.lines.get(exchange.line)?.movement) || 'none'
	};
}
