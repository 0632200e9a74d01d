import { shortFigure } from '#pedigree/figureWords.ts';
import type { SeasonFigures, SeasonPlan } from '#planning/season/season.ts';
import { capital, countWords } from './fishWords.ts';
import type { ChosenBags } from './bagSentence.ts';
import type { SeasonAsked } from './seasonWords.ts';

/** How far a figure may be from the bound and still read as the same. */
const sameObjective = 1e-6;
/** Inbreeding of young of brother and sister (Wright 1922). */
const siblings = 0.25;
/** A smaller difference reads as little: own choice. */
const little = 0.05;

/** Plan sentence: what do these bags bring, all together? */
export function planSentence(asked: SeasonAsked, plan: SeasonPlan | ChosenBags): string {
	const { figures } = plan;
	if (plan.bags.length === 0) return 'No bag is worth moving: nothing that may go brings more than it costs.';
	const found = newRooms(asked, plan);
	const lead = [
		countWords(figures.bags, 'bag'),
		figures.trips.length ? countWords(figures.trips.length, 'trip') : 'no trips',
		...(found ? [countWords(found, 'new room')] : [])
	].join(', ');
	return `${capital(lead)}. ${meanSentence(figures)}${proofSentence(plan)}`;
}

function meanSentence({ meanBefore, meanAfter }: SeasonFigures): string {
	const [before, after] = [shortFigure(meanBefore), shortFigure(meanAfter)];
	const scale = `Young of brother and sister: ${shortFigure(siblings)}.`;
	return before === after
		? `The next young are about as inbred as without it: ${after} on average. ${scale}`
		: `The next young are ${lessWords(meanBefore - meanAfter)} than without it: ${after} on average, not ${before}. ${scale}`;
}

function lessWords(less: number): string {
	const size = Math.abs(less);
	const much = size < little ? 'a little ' : size > siblings / 2 ? 'much ' : '';
	return `${much}${less > 0 ? 'less' : 'more'} inbred`;
}

function proofSentence(plan: SeasonPlan | ChosenBags): string {
	if (!('bound' in plan)) return '';
	if (plan.isProven) return ' No better plan exists for what was asked.';
	const { objective } = plan.figures;
	const gap = objective - plan.bound;
	if (gap <= sameObjective) return '';
	// Before the solver has said anything the bound lies anywhere below.
	if (!(gap < objective)) return ' There may be a still better plan.';
	const percent = Math.max(0.1, (100 * gap) / objective).toFixed(1);
	return ` There may be a still better plan, by ${percent} % of what is weighed at most.`;
}

/** Rooms that get a line for the first time. */
function newRooms({ problem }: SeasonAsked, { bags }: ChosenBags): number {
	const founded = bags.filter(({ holding }) => {
		const { males, females } = problem.holdings[holding]!;
		return males + females === 0;
	});
	return new Set(founded.map(({ holding }) => holding)).size;
}

/** Alternative sentence: in what does this plan differ from the balanced one? */
export function alternativeSentence(asked: SeasonAsked, balanced: ChosenBags, other: ChosenBags): string {
	const [one, two] = [balanced.figures, other.figures];
	const more = (difference: number, thing: string) =>
		difference === 0
			? []
			: [`${countWords(Math.abs(difference), thing)} ${difference > 0 ? 'more' : 'fewer'}`];
	const kept = new Set(balanced.bags.map(({ key }) => key));
	const [was, is] = [shortFigure(one.meanAfter), shortFigure(two.meanAfter)];
	const parts = [
		...more(two.trips.length - one.trips.length, 'trip'),
		...more(two.bags - one.bags, 'bag'),
		...more(newRooms(asked, other) - newRooms(asked, balanced), 'new room'),
		...(was === is ? [] : [`the next young ${is} inbred on average instead of ${was}`])
	];
	if (parts.length) return `${capital(parts.join(', '))}.`;
	const others = other.bags.filter(({ key }) => !kept.has(key)).length;
	return others === 0
		? 'The same as the balanced plan.'
		: `As many bags and trips; ${countWords(others, 'bag')} ${others === 1 ? 'is another' : 'are others'}.`;
}
