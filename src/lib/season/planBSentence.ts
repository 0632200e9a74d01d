import { bagsOfKeys } from '#planning/season/bagsOfKeys.ts';
import type { PlanBAnswer } from '#planning/season/planB.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { bagSentence, type ChosenBags } from './bagSentence.ts';
import { capital, listed } from './fishWords.ts';
import type { SeasonAsked } from './seasonWords.ts';

export interface PlanBSentence {
	/** The bags that come instead, each as its short words; empty = nothing as good. */
	readonly instead: readonly string[];
	/** What else does not stay, by the same words: only where wishes leave no other way. */
	readonly alsoGone: readonly string[];
	/** One sentence for when nothing comes instead; '' = something does. */
	readonly none: string;
	/** The bags then, with what they bring. */
	readonly then: ChosenBags;
}

/** Plan B sentence: what is the best answer then, against the plan as it stands? */
export function planBSentence(asked: SeasonAsked, plan: ChosenBags, answer: PlanBAnswer): PlanBSentence {
	const { problem, words } = asked;
	const bags = bagsOfKeys(problem, answer.keys);
	const then = { bags, figures: seasonFigures(problem, bags) };
	const roomTo = (bag: ChosenBags['bags'][number]) => problem.holdings[bag.holding]!.room;
	const isOf = (bag: ChosenBags['bags'][number]) => {
		if (answer.case.if === 'refused') return bag.key === answer.case.bag;
		const { room } = answer.case;
		const rooms = [roomTo(bag), ...bag.gives.map(({ source }) => problem.sources[source]!.room)];
		return rooms.some((at) => problem.rooms[at]!.id === room);
	};
	const lost = plan.bags.filter(isOf);
	const stays = plan.bags.filter((bag) => !isOf(bag));
	const added = bags.filter(({ key }) => !stays.some((bag) => bag.key === key));
	const waiting = lost
		.filter((bag) => answer.case.if === 'refused' || problem.rooms[roomTo(bag)]!.id !== answer.case.room)
		.filter(({ holding }) => !bags.some((bag) => bag.holding === holding))
		.map((bag) => `${words.rooms[roomTo(bag)]!.name} (${words.lines[bag.line]!.code})`);
	return {
		instead: added.map((bag) => bagSentence(asked, then, bag).short),
		alsoGone: stays
			.filter(({ key }) => !answer.keys.includes(key))
			.map((bag) => bagSentence(asked, plan, bag).short),
		none: added.length ? '' : noneWords([...new Set(waiting)]),
		then
	};
}

function noneWords(waiting: readonly string[]): string {
	if (waiting.length === 0) return 'No other bag is worth it. The others stand as they are.';
	return `Nothing as good can come: ${capital(listed(waiting))} ${waiting.length === 1 ? 'waits' : 'wait'}.`;
}
