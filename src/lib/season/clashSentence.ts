import { readBagKey } from '#planning/season/bagKey.ts';
import type { SeasonPlan, SeasonWish } from '#planning/season/season.ts';
import type { Stop } from '#planning/season/seasonStops.ts';
import { countWords, fishWords, listed } from './fishWords.ts';
import type { SeasonAsked } from './seasonWords.ts';

/** Clash sentence: which wishes cannot all be kept, and which does this plan give up? '' = all are kept. */
export function clashSentence(asked: SeasonAsked, plan: Pick<SeasonPlan, 'givenUp' | 'clash'>): string {
	if (plan.givenUp.length === 0) return '';
	const said = (ids: readonly string[]) => ids.map((id) => wishSentence(asked, id));
	const clash =
		plan.clash.length > 1
			? `These cannot all be: ${said(plan.clash).join('; ')}. `
			: plan.clash.length === 1
				? `This cannot be as things stand: ${said(plan.clash).join('')}. `
				: '';
	return `${clash}This plan leaves out: ${said(plan.givenUp).join('; ')}.`;
}

/** A wish in words: "at most two trips". */
export function wishSentence(asked: SeasonAsked, id: string): string {
	const { problem, words } = asked;
	const wish = problem.wishes.find((one) => one.id === id);
	return wish ? wishWords(asked, wish) : words.lines.length ? 'a wish that was taken back' : '';
}

function wishWords(asked: SeasonAsked, wish: SeasonWish): string {
	const { problem, words } = asked;
	switch (wish.wish) {
		case 'holders':
			return `${words.lines[wish.line]!.name} in at least ${countWords(wish.least, 'room')}`;
		case 'newBlood': {
			const { line, room } = problem.holdings[wish.holding]!;
			const crossed = /^cross:([^:]*):/.exec(wish.id)?.[1];
			const from = words.lines.find(({ id }) => id === crossed);
			if (from)
				return `fish of ${from.name} for ${words.rooms[room]!.name}, to cross with ${words.lines[line]!.name}`;
			return `new blood of ${words.lines[line]!.name} for ${words.rooms[room]!.name}`;
		}
		case 'bag':
			return bagWords(asked, wish.key);
		case 'trips':
			return wish.most === 0 ? 'no trips' : `at most ${countWords(wish.most, 'trip')}`;
		case 'bags':
			return wish.most === 0 ? 'no bags' : `at most ${countWords(wish.most, 'bag')}`;
		case 'fair':
			return `every room gives about as many bags as it gets (${countWords(wish.most, 'bag')} apart at most)`;
	}
}

function bagWords(asked: SeasonAsked, key: string): string {
	const { problem, words } = asked;
	const read = readBagKey(problem, key);
	if (!read) return 'a bag whose fish can no longer be given';
	const from = listed(
		read.gives.map(
			({ source, fish }) => `${fishWords(fish)} from ${words.rooms[problem.sources[source]!.room]!.name}`
		)
	);
	return `${from} to ${words.rooms[problem.holdings[read.holding]!.room]!.name}`;
}

/** Stop sentence: what forbids a choice made by hand? Why two rooms are kept apart is never told. */
export function stopSentence(asked: SeasonAsked, stop: Stop): string {
	const { problem, words } = asked;
	const room = stop.room === undefined ? undefined : words.rooms[stop.room];
	const name = room?.name ?? 'This room';
	const of = stop.room === undefined ? undefined : problem.rooms[stop.room];
	const group = stop.source === undefined ? 'This group' : words.sources[stop.source]!.name;
	switch (stop.stop) {
		case 'closed':
			return room?.stop || `${name} is closed: nothing in or out.`;
		case 'apart':
			return 'Nothing goes between these two rooms in this plan. Choose another room.';
		case 'ownRoom':
			return `${group} stands in ${name} already. Choose a group of another room.`;
		case 'otherLine':
			return `${group} is of another line. Lines are not crossed unless that was planned.`;
		case 'tooFewFish':
			return `${group} cannot spare so many${stop.source === undefined ? '' : `: ${fishWords(problem.sources[stop.source]!.spare)} at most`}. Take fewer.`;
		case 'bagsIn':
			return atMost(`${name} can take`, of?.bagsIn ?? 0, 'bag');
		case 'bagsOut':
			return atMost(`${name} can give`, of?.bagsOut ?? 0, 'bag');
		case 'tanks':
			return [
				`${name} has ${countWords(of?.tanksFree ?? 0, 'tank')} free for fish from elsewhere.`,
				...(room?.tanks ? [room.tanks] : [])
			].join(' ');
		case 'banned':
			return 'This bag was ruled out for this plan.';
		case 'tooClose':
			return 'These fish are as close to their mates as brother and sister, and others can come.';
		case 'wish':
			return `Not kept: ${wishSentence(asked, stop.wish ?? '')}.`;
	}
}

function atMost(lead: string, count: number, thing: string): string {
	return count === 0 ? `${lead} no ${thing} in this plan.` : `${lead} ${countWords(count, thing)} at most.`;
}
