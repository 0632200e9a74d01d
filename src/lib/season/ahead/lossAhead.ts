import type { Question } from '#club/question.ts';
import { lossByRounds } from '#planning/loss/lossByRounds.ts';
import { lossOutlook, type LossOutlook } from '#planning/loss/lossOutlook.ts';
import { oneMoreRoom, type LeftOfChance } from '#planning/loss/oneMoreRoom.ts';
import { overRates } from '#planning/loss/overRates.ts';
import type { ThingId } from '#records/entry.ts';
import { lineAhead, type LineAhead } from './lineAhead.ts';
import { ratesOf, type LineLoss } from './lineLoss.ts';

/** How much rooms of different houses fail together: intra-class correlation. Own choice. */
export const correlations = { alone: 0, atTimes: 0.1, often: 0.3 } as const;
/** Which share of the bags that are due comes and takes. Own choice. */
export const bagsThatCome = { all: 1, most: 0.75, half: 0.5 } as const;

export interface LossAhead extends LineLoss {
	/** Houses that hold the line: rooms of one house count once. */
	readonly houses: number;
	/** Rooms in them. */
	readonly rooms: number;
	/** As the club has done so far; no room filled again; one more room, as so far. */
	readonly goesOn: LossOutlook;
	readonly neverFilled: LossOutlook;
	readonly oneMore: LossOutlook;
	/** What one more room leaves of the chance within ten years. */
	readonly oneMoreLeaves: LeftOfChance;
	/** As so far within ten years, where rooms at times fail together. */
	readonly together: number;
	/** With rounds of swaps; null where no two rooms can swap. */
	readonly rounds: {
		/** Only the room before it fills a room; any room that has the line does. */
		readonly ring: LossOutlook;
		readonly plan: LossOutlook;
		readonly months: number;
		/** Rooms reckoned with: fewer than there are where there are many. */
		readonly rooms: number;
	} | null;
}

const yearsAhead = 20;
const yearsOfWords = 10;
/** Houses beyond this change no figure that is shown. */
const mostHouses = 12;
/** Sets of more rooms take a phone too long. */
const mostRooms = 8;

/**
 * Loss ahead: how likely is it that nobody has the line any more, and what do swaps and one more room change?
 *
 * Rates are those of the whole club's record. A swap brings fish to a room that has lost the line: in a ring from the
 * one room before it, with a plan from any room that has it. What a swap brings along is not reckoned with here.
 */
export const lossAhead: Question<
	{
		readonly line: ThingId;
		readonly together: keyof typeof correlations;
		readonly bags: keyof typeof bagsThatCome;
	},
	LossAhead | null
> = (state, { line, together, bags }, context) => {
	const of = lineAhead(state, { line }, context);
	if (!of?.loss) return null;
	const rates = ratesOf(of.loss.record);
	const houses = new Set(of.held.map(({ house }) => house)).size;
	const holders = Math.min(mostHouses, houses);
	const correlation = correlations[together];
	const rooms = (more: number) => ({ holders: holders + more, maxHolders: holders + more, correlation });
	const never = { expected: 0, quantile: () => 0 };
	return {
		...of.loss,
		...{ houses, rooms: of.held.length },
		goesOn: lossOutlook(rooms(0), rates, yearsAhead),
		neverFilled: lossOutlook(rooms(0), { ...rates, refilled: never }, yearsAhead),
		oneMore: lossOutlook(rooms(1), rates, yearsAhead),
		oneMoreLeaves: oneMoreRoom(rooms(0), rates, yearsOfWords),
		together: lossOutlook(
			{ ...rooms(0), correlation: correlations.atTimes },
			rates,
			yearsOfWords
		).expected.at(-1)!,
		rounds: roundsOf(of, rates.lost, correlation, bagsThatCome[bags])
	};
};

function roundsOf(
	{ held, ring, monthsAGeneration }: LineAhead,
	lost: ReturnType<typeof ratesOf>['lost'],
	correlation: number,
	filled: number
): LossAhead['rounds'] {
	const holds = new Map(held.map(({ room, house }) => [room, house]));
	const inRing = ring.rooms.map(({ room }) => room).filter((room) => holds.has(room));
	if (inRing.length < 2) return null;
	const outside = [...holds.keys()].filter((room) => !inRing.includes(room));
	const rooms = [...inRing, ...outside].slice(0, mostRooms);
	const swapping = Math.min(inRing.length, rooms.length);
	const others = (room: number) => Array.from({ length: swapping }, (_, i) => i).filter((i) => i !== room);
	const before = (room: number) => [(room + swapping - 1) % swapping];
	const outlook = (givers: (room: number) => number[]) =>
		overRates([lost], (lossPerYear) =>
			lossByRounds(
				{
					houses: rooms.map((room) => holds.get(room)!),
					givers: rooms.map((_, room) => (room < swapping ? givers(room) : [])),
					...{ lossPerYear: lossPerYear!, correlation, filled }
				},
				monthsAGeneration,
				yearsAhead
			)
		);
	return { ring: outlook(before), plan: outlook(others), months: monthsAGeneration, rooms: rooms.length };
}
