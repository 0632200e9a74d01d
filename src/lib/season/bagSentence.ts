import { kinshipWords } from '#genetics/words/kinshipWords.ts';
import { shortFigure } from '#pedigree/figureWords.ts';
import { seasonBags } from '#planning/season/possibleBags.ts';
import type { PossibleBag, Range, SeasonFigures, SeasonProblem } from '#planning/season/season.ts';
import { dayText } from '#records/dayText.ts';
import { addFish, fishText, noFish } from '#records/fishCount.ts';
import { capital, fishWords, listed } from './fishWords.ts';
import type { SeasonAsked } from './seasonWords.ts';

export interface BagSentence {
	/** "2m of TIDE-1: Harbour Shed to Mill Cellar" */
	readonly short: string;
	/** One sentence why; every part of it holds by the record. */
	readonly reason: string;
	/** What else is good to know, as sentences: what is not certain, not offered, who is owed; '' = nothing. */
	readonly notes: string;
	/** Inbreeding of their young and of the room's next young, with and without the plan. */
	readonly figures: string;
}
/** Bags with what they bring: a plan, or a choice by hand. */
export interface ChosenBags {
	readonly bags: readonly PossibleBag[];
	readonly figures: SeasonFigures;
}

/** A smaller difference is not seen in two decimals. */
const sameFigure = 0.005;
const wideRange = 0.05;
const possible = new WeakMap<SeasonProblem, readonly PossibleBag[]>();

/** Bag sentence: why this bag, in one sentence whose every part is computed? */
export function bagSentence(asked: SeasonAsked, plan: ChosenBags, bag: PossibleBag): BagSentence {
	const { problem, words } = asked;
	const holding = problem.holdings[bag.holding]!;
	const to = words.rooms[holding.room]!;
	const givers = bag.gives.map(({ source }) => problem.sources[source]!.room);
	const lead = listed(
		bag.gives.map(({ source, fish }) => {
			const { room } = problem.sources[source]!;
			return `${fishWords(fish)} from ${words.rooms[room]!.name} (${words.sources[source]!.name})`;
		})
	);
	const own = words.lines[problem.sources[bag.gives[0]!.source]!.line]!;
	const into = words.lines[bag.line]!;
	const isCross = own !== into;
	const clauses = [
		...newHolder(asked, bag),
		isCross
			? `to be crossed on purpose with ${into.name}: nothing is known between the two lines, so they count as not related`
			: related(asked, bag),
		...lessInbred(plan, bag),
		...(bag.sendsBack ? ['they go back to the room that they came from last'] : []),
		...([...givers, holding.room].every((room) => !words.rooms[room]!.isTroubled)
			? ['no tank is closed or in quarantine in either room']
			: []),
		...travels(asked, givers, holding.room)
	];
	const fish = bag.gives.reduce((sum, give) => addFish(sum, give.fish), noFish);
	const from = [...new Set(givers)].map((room) => words.rooms[room]!.name).join(' and ');
	return {
		short: `${fishText(fish)} of ${own.code}${isCross ? ` to cross with ${into.code}` : ''}: ${from} to ${to.name}`,
		reason: `${capital(lead)}: ${clauses.join(', ')}.`,
		notes: [
			...(isCross ? [`Their young are no longer pure ${into.name}; the record marks them.`] : []),
			...openThings(asked, bag),
			...notOffered(asked, bag),
			...owed(asked, bag)
		].join(' '),
		figures: figuresOf(asked, plan, bag)
	};
}

function newHolder({ problem, words }: SeasonAsked, bag: PossibleBag): string[] {
	const { waiting, males, females } = problem.holdings[bag.holding]!;
	const { waitingSince, raisesHolders } = words.holdings[bag.holding]!;
	const isLast = words.lines[bag.line]!.state === 'last room';
	return [
		...(males + females === 0 ? ['a first group for this room'] : []),
		...(waiting >= 0 && waitingSince
			? [`which has asked since ${dayText(waitingSince)}${waiting === 0 ? ' and is first in line' : ''}`]
			: []),
		...(males + females === 0 && raisesHolders && isLast ? ['the line has only one room so far'] : [])
	];
}

/** How the fish compare with all others that this room could get. */
function related({ problem }: SeasonAsked, bag: PossibleBag): string {
	const { males, females } = problem.holdings[bag.holding]!;
	const isNew = males + females === 0;
	const mates = isNew ? 'each other' : 'their mates';
	let all = possible.get(problem);
	if (!all) possible.set(problem, (all = seasonBags(problem)));
	const others = all.filter(({ holding, key }) => holding === bag.holding && key !== bag.key);
	const isLeast = others.every((one) => one.mates.expected >= bag.mates.expected - sameFigure);
	const close = `${isNew ? 'they' : 'they and their mates'} are ${kinshipWords(bag.mates.expected).words}`;
	if (bag.leastBad)
		return `${close}, ${isLeast ? 'the least bad choice since nothing less related can come' : 'as all that can come are close'}`;
	const sources = (one: PossibleBag) => one.gives.map(({ source }) => source).join(' ');
	if (others.every((one) => sources(one) === sources(bag))) return `${close}, and no others can come`;
	return isLeast ? `as little related to ${mates} as any fish that can come` : close;
}

function lessInbred({ figures }: ChosenBags, bag: PossibleBag): string[] {
	const of = figures.holdings[bag.holding];
	return of?.before && of.after && of.before.expected - of.after.expected >= sameFigure
		? ['the next young there will be less inbred']
		: [];
}

function openThings({ words }: SeasonAsked, bag: PossibleBag): string[] {
	if (bag.mates.greatest - bag.mates.least < wideRange) return [];
	const open = bag.gives.map(({ source }) => words.sources[source]!).find(({ wide }) => wide !== '');
	const between = `surely between ${shortFigure(bag.mates.least)} and ${shortFigure(bag.mates.greatest)}`;
	return [`Their young are ${between} inbred${open ? `: ${open.wide}` : ''}.`];
}

function notOffered({ words }: SeasonAsked, bag: PossibleBag): string[] {
	return bag.gives.some(({ source }) => words.sources[source]!.spareWhy !== 'offered')
		? ['Not offered yet: they are more than the group needs to breed on.']
		: [];
}

/** The way, each sort of it told once. */
function travels({ words }: SeasonAsked, givers: readonly number[], to: number): string[] {
	const other = words.rooms[to]!;
	const ways = [...new Set(givers)].map((from) => ({
		one: words.rooms[from]!,
		way: words.trips[from]![to]!
	}));
	const meet = ways.filter(({ way }) => way === 'meeting').map(({ one }) => one);
	const drives = ways.flatMap(({ one, way }) => {
		if (way === 'house') return [`${one.name} and ${other.name} are in one house`];
		if (way === 'near') return [`a short drive within ${one.region}`];
		if (way === 'drive') return ['a drive'];
		return way === 'far' ? [`a long way from ${one.region} to ${other.region}`] : [];
	});
	if (meet.length === 0 || !words.meeting) return [...new Set(drives)];
	const silent = [...meet, other].filter(({ hasSaid }) => !hasSaid).map(({ name }) => name);
	const { name, date } = words.meeting;
	const day = date ? ` on ${dayText(date)}` : '';
	const comes = silent.length ? ` if ${listed(silent)} ${silent.length === 1 ? 'comes' : 'come'}` : '';
	return [...new Set(drives), `${name}${day} covers it${comes}`];
}

/** Who has had more than they gave, and the other way round. */
function owed({ problem, words }: SeasonAsked, bag: PossibleBag): string[] {
	const to = problem.holdings[bag.holding]!.room;
	const gives = bag.gives.map(({ source }) => problem.sources[source]!.room);
	const had = [...new Set(gives)].filter((room) => problem.rooms[room]!.balance < 0);
	return [
		...had.map((room) => `${words.rooms[room]!.name} has had more bags this year than it gave.`),
		...(problem.rooms[to]!.balance > 0
			? [`${words.rooms[to]!.name} has given more bags this year than it had.`]
			: [])
	];
}

function figuresOf({ problem, words }: SeasonAsked, { figures }: ChosenBags, bag: PossibleBag): string {
	const { room } = problem.holdings[bag.holding]!;
	const of = figures.holdings[bag.holding];
	const name = words.rooms[room]!.name;
	const after = of?.after ? ` Next young in ${name}: ${rangeText(of.after)}` : '';
	const before = of?.before ? `, without the plan ${rangeText(of.before)}` : '';
	return `Their young: ${rangeText(bag.mates)}.${after ? `${after}${before}.` : ''}`;
}

/** "0.12 (0.05 to 0.25)" */
function rangeText({ expected, least, greatest }: Range): string {
	const isOne = shortFigure(least) === shortFigure(greatest);
	return `${shortFigure(expected)}${isOne ? '' : ` (${shortFigure(least)} to ${shortFigure(greatest)})`}`;
}
