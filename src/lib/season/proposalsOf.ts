import type { PossibleBag, Range } from '#planning/season/season.ts';
import type { Draft, ThingId } from '#records/entry.ts';
import { exchangeProposed } from '#records/kinds/exchanges/proposed.ts';
import { bagSentence, type ChosenBags } from './bagSentence.ts';
import type { SeasonAsked } from './seasonWords.ts';

export interface SendingPlan {
	readonly plan: { readonly id: ThingId; readonly name: string };
	readonly meeting: ThingId | null;
	/** True = sent to both sides at once. */
	readonly asked: boolean;
	readonly happened: string;
	/** The plan's note to all, or ''. */
	readonly note?: string;
	/** Makes the id of an exchange; asked once for each bag. */
	readonly newId: () => ThingId;
}

const inTenThousandths = (range: Range) => Math.round(Math.min(1, Math.max(0, range.expected)) * 10_000);

/**
 * Proposals of a plan: one exchange for each bag, with its reason and figures.
 *
 * @param bags those to send: all of the plan, or some
 */
export function proposalsOf(
	asked: SeasonAsked,
	plan: ChosenBags,
	bags: readonly PossibleBag[],
	sending: SendingPlan
): Draft[] {
	const { problem } = asked;
	return bags.map((bag) => {
		const exchange = sending.newId();
		const into = problem.lines[bag.line]!.id;
		// Fish to be crossed stay fish of their own line: so says their bag, and the group that arrives.
		const line = problem.lines[problem.sources[bag.gives[0]!.source]!.line]!.id;
		const outcross = line === into ? null : into;
		const toRoom = problem.rooms[problem.holdings[bag.holding]!.room]!.id;
		const gives = bag.gives.map(({ source, fish }) => {
			const { id, room } = problem.sources[source]!;
			return { fromRoom: problem.rooms[room]!.id, group: id, fish };
		});
		const { reason, figures } = bagSentence(asked, plan, bag);
		const { before, after } = plan.figures.holdings[bag.holding] ?? { before: null, after: null };
		const about = [
			exchange,
			line,
			...(outcross ? [outcross] : []),
			toRoom,
			...gives.map(({ fromRoom }) => fromRoom)
		];
		return {
			...{ kind: exchangeProposed.kind, happened: sending.happened },
			about: [...new Set([...about, ...(sending.meeting ? [sending.meeting] : [])])],
			body: {
				...{ exchange, line, gives, toRoom, meeting: sending.meeting, note: sending.note ?? '' },
				...{ reason: `${reason} ${figures}`.slice(0, 4000), asked: sending.asked, outcross },
				plan: {
					...sending.plan,
					expects:
						after && !outcross
							? { before: before ? inTenThousandths(before) : null, after: inTenThousandths(after) }
							: null
				}
			}
		};
	});
}
