import { kinshipWords } from '#genetics/words/kinshipWords.ts';
import { nextMating, type NextMating } from '#genetics/words/nextMating.ts';
import { figureWords, sureWords } from '#pedigree/figureWords.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import type { ThingId } from '#records/entry.ts';
import type { Question } from '../question.ts';
import { hasOpenOrigin } from './kinshipTable.ts';

export interface KinshipOfPair {
	/** Words, number, range and why, as one sentence. */
	readonly sentence: string;
	readonly tier: NextMating['tier'];
	/** One sentence on origins that nobody has said; '' = all are known. */
	readonly howSure: string;
	/** Broods whose parents would make it surer, the weightiest first. */
	readonly broods: readonly ThingId[];
}

/** How related are fish of these two groups, and why is it not certain? The same group twice: two fish of it. */
export const kinshipOfPair: Question<
	{ line: ThingId; one: ThingId; other: ThingId },
	KinshipOfPair | null
> = (state, { line, one, other }) => {
	const kinship = lineKinships.of(state, state.lines.get(line)?.id ?? line);
	if (!kinship.knows(one) || !kinship.knows(other)) return null;
	const figure = one === other ? kinship.within([one]) : kinship.between([one], [other]);
	const pair = [...new Set([one, other])];
	const unknown = figure.greatest <= 0 && hasOpenOrigin(kinship, pair);
	const outside = [...kinship.events.unknownOrigin].filter((id) =>
		pair.some((group) => kinship.forebearsOf(group).has(id))
	);
	return {
		sentence: figureWords(figure, kinshipWords(unknown ? null : figure.expected).words, unknown),
		tier: nextMating(unknown ? null : figure.expected).tier,
		howSure: unknown ? '' : sureWords(state, outside),
		broods: figure.open.flatMap((open) => open.spawn ?? [])
	};
};
