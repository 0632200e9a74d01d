import { describe, expect, it } from 'vitest';
import type { SeasonFigures } from '#planning/season/season.ts';
import { costWords } from '#ui/plans/costWords.ts';
import { bagNumbers, bagsCalled } from '#ui/plans/bagNumbers.ts';
import { planSteps } from '#ui/plans/planSteps.ts';

const none = { planned: 0, asked: 0, agreed: 0, declined: 0, done: 0, over: 0 };

function figures(meanAfter: number, bags: number, trips: number, holdersAfter: number): SeasonFigures {
	return {
		...{ objective: 0, worstObjective: 0, holdings: [], tripCost: trips, bags, meanBefore: 0.25, meanAfter },
		lines: [{ kinshipBefore: 0, kinshipAfter: 0, holdersAfter }],
		trips: Array.from({ length: trips }, () => ({ rooms: [0, 1] as const, cost: 1 }))
	};
}

describe('how far a plan is', () => {
	it('counts only the steps that some bag is at', () => {
		expect(planSteps({ bags: 6, steps: { ...none, agreed: 3, declined: 1, asked: 2 } })).toBe(
			'6 bags: 3 agreed, 1 declined, 2 asked'
		);
		expect(planSteps({ bags: 1, steps: { ...none, done: 1 } })).toBe('1 bag: 1 done');
		expect(planSteps({ bags: 2, steps: { ...none, planned: 1, over: 1 } })).toBe(
			'2 bags: 1 not sent, 1 called off or lapsed'
		);
	});
});

describe('numbers of bags', () => {
	it('are as many as the bags that are counted: one for each room that gives', () => {
		expect(bagNumbers([1, 2, 1])).toEqual([[1], [2, 3], [4]]);
		expect(bagNumbers([1, 2, 1]).map(bagsCalled)).toEqual(['bag 1', 'bags 2 and 3', 'bag 4']);
	});
});

describe('what a change costs', () => {
	it('nothing, when all figures are as before, to the digits that are told', () => {
		expect(costWords(figures(0.1, 4, 2, 3), figures(0.1, 4, 2, 3))).toBe('Costs nothing: as good as before.');
		expect(costWords(figures(0.1, 4, 2, 3), figures(0.10004, 4, 2, 3))).toMatch(/^Costs nothing/);
	});

	it('says more and fewer, one and many, each with its own plural', () => {
		expect(costWords(figures(0.1, 4, 2, 3), figures(0.125, 3, 4, 2))).toBe(
			'The next young more inbred: 0.125 instead of 0.100 on average, 2 trips more, one bag fewer, ' +
				'one room that holds a line fewer.'
		);
		expect(costWords(figures(0.125, 1, 1, 1), figures(0.1, 3, 0, 3))).toBe(
			'The next young less inbred: 0.100 instead of 0.125 on average, one trip fewer, 2 bags more, ' +
				'2 rooms that hold a line more.'
		);
	});

	it('begins with a capital whatever is told first', () => {
		expect(costWords(figures(0.1, 4, 2, 3), figures(0.1, 4, 3, 3))).toBe('One trip more.');
	});
});
