import type { ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import type { Names } from '#records/kind.ts';
import type { Bag, BagStage, ClubState, Fish, LineDefinition } from '#records/state.ts';
import { dayMs, type Asking } from '../question.ts';
import { bagReceiver } from './bagReceiver.ts';
import { needsOfBag, toSettle, type BagNeed } from './needsOfBag.ts';

/** A bag as lists, labels and the meeting's sheet show it. */
export interface BagRow {
	readonly id: ThingId;
	/** '' = no label yet. */
	readonly number: string;
	readonly stage: BagStage | 'settled, no report';
	readonly line: {
		readonly id: ThingId;
		readonly name: string;
		readonly code: string;
		readonly kind: LineDefinition['kind'];
		readonly locality: string;
		readonly movement: LineDefinition['movement'];
	} | null;
	/** null = nobody has said what is in it. */
	readonly fish: Fish | null;
	readonly from: { readonly id: ThingId; readonly name: string } | null;
	readonly to: {
		readonly sort: 'room' | 'guest' | 'outside' | 'open';
		readonly id: ThingId | null;
		readonly name: string;
	};
	/** ISO 8601-2; '' = not said. */
	readonly bagged: string;
	/** Last time anything was said of it, ms since 1970. */
	readonly lastAt: number;
	readonly needs: readonly BagNeed[];
	readonly toSettle: boolean;
	/** The entry whose sharing stands beside the row: the last one. */
	readonly lastEntry: string;
	readonly mine: boolean;
	readonly exchange: ThingId | null;
	readonly meeting: ThingId | null;
}

const daysToReport = 21;

export function bagRow(state: ClubState, bag: Bag, names: Names, asking: Asking): BagRow {
	const line = bag.line ? state.lines.get(bag.line) : undefined;
	const said = [
		...bag.statements,
		...bag.handOvers,
		...bag.arrivals,
		...bag.dayCounts,
		...(bag.givenBack ? [bag.givenBack] : []),
		...(bag.failed ? [bag.failed] : [])
	];
	const last = said.reduce<(typeof said)[number] | null>(
		(best, one) => (!best || one.when.last >= best.when.last ? one : best),
		null
	);
	const arrived = bag.arrivals.at(-1)?.when.last ?? Infinity;
	const needs = needsOfBag(bag, asking.now);
	const rooms = state.members.get(asking.me)?.rooms ?? [];
	const receiver = bagReceiver(bag);
	return {
		id: bag.id,
		number: bag.number,
		stage:
			bag.stage === 'arrived' && asking.now - arrived >= daysToReport * dayMs
				? 'settled, no report'
				: bag.stage,
		line: line
			? {
					id: line.id,
					name: names.line(line.id),
					code: line.code,
					kind: line.kind,
					locality: line.localityVerbatim,
					movement: line.movement
				}
			: null,
		fish: bag.contents.length ? bag.contents.reduce((sum, one) => addFish(sum, one.fish), noFish) : null,
		from: bag.fromRoom ? { id: bag.fromRoom, name: names.room(bag.fromRoom) } : null,
		to: receiverOf(bag, receiver, names),
		bagged: bag.baggedAt?.text ?? '',
		lastAt: last?.when.last ?? 0,
		needs,
		toSettle: toSettle(needs),
		lastEntry: last?.entry ?? bag.entries.at(-1) ?? '',
		mine:
			(bag.fromRoom !== null && rooms.includes(bag.fromRoom)) ||
			(receiver !== null && rooms.includes(receiver)),
		exchange: bag.exchange,
		meeting: bag.meeting
	};
}

function receiverOf(bag: Bag, receiver: ThingId | null, names: Names): BagRow['to'] {
	if (receiver) return { sort: 'room', id: receiver, name: names.room(receiver) };
	if (bag.to?.to === 'guest' || bag.to?.to === 'outside')
		return { sort: bag.to.to, id: null, name: bag.to.name };
	return { sort: 'open', id: null, name: '' };
}

/** Every bag once, the last spoken of first. */
export function allBags(state: ClubState): Bag[] {
	return [...new Set(state.bags.values())];
}

export function newestFirst(a: BagRow, b: BagRow): number {
	return b.lastAt - a.lastAt || (a.id < b.id ? 1 : -1);
}
