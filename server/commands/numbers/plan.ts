/** `npm run numbers -- plan`: which room gets a male from which, for one line. */
import loadHighs from 'highs';
import * as z from 'zod';
import { choosePartners } from '#planning/choosePartners.ts';
import { read, type Problem, type Question } from './question.ts';

/** Long enough to prove the best choice for clubs of any real size. */
const secondsToLook = 60;

const count = z
	.int({ error: 'a count must be a whole number of at least 0' })
	.min(0, 'a count must be at least 0');
const kinship = z
	.number({ error: 'a kinship must be a number from 0 to 1' })
	.min(0, 'a kinship must be from 0 to 1')
	.max(1, 'a kinship must be from 0 to 1');
const atLeast0 = (name: string) =>
	z.number({ error: `${name} must be 0 or more` }).min(0, `${name} must be 0 or more`);

const pair = z.tuple([count, count], { error: 'a forbidden bag must be two rooms, [from, to]' });

const schema = z.strictObject({
	rooms: z.int({ error: 'rooms must be a whole number of at least 1' }).min(1, 'rooms must be at least 1'),
	males: z.array(count),
	females: z.array(count),
	theta: z.array(z.array(kinship)),
	bagsOutMax: z.array(count),
	bagsInMax: z.array(count),
	forbidden: z.array(pair).default([]),
	maxIncomingKinship: atLeast0('maxIncomingKinship').default(0.25),
	tripCost: z.array(z.array(atLeast0('a trip cost'))).optional(),
	tripBudget: atLeast0('tripBudget').optional(),
	lambdaGlobal: atLeast0('lambdaGlobal').default(0)
});

export const plan: Question = async (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const { rooms, females, ...asked } = form.input;
	const problems = [
		...['males', 'bagsOutMax', 'bagsInMax', 'theta', 'tripCost'].flatMap((name) =>
			wrongLength(name, asked[name as keyof typeof asked] as readonly unknown[] | undefined, rooms)
		),
		...wrongLength('females', females, rooms),
		...asked.theta.flatMap((row, i) => wrongLength(`theta[${i}]`, row, rooms)),
		...(asked.tripCost ?? []).flatMap((row, i) => wrongLength(`tripCost[${i}]`, row, rooms)),
		...asked.forbidden.flatMap((pair) =>
			pair.every((room) => room < rooms)
				? []
				: [
						problem(
							'roomUnknown',
							`forbidden names the rooms ${pair.join(' and ')}: rooms go from 0 to ${rooms - 1}.`
						)
					]
		)
	];
	if (problems.length === 0) {
		for (let i = 0; i < rooms; i++)
			for (let j = 0; j < i; j++)
				if (asked.theta[i]![j] !== asked.theta[j]![i])
					problems.push(problem('notSymmetric', `theta[${i}][${j}] and theta[${j}][${i}] must be the same.`));
	}
	if (problems.length > 0) return { problems };
	const answer = choosePartners(asked, await loadHighs(), secondsToLook);
	return {
		answer: {
			donor: answer.donor,
			objective: answer.objective,
			meanNextInbreeding: answer.meanNextInbreeding,
			globalKinship: answer.globalKinship,
			optimal: answer.optimal
		}
	};
};

const problem = (code: string, sentence: string): Problem => ({ code, ids: [], sentence });

function wrongLength(name: string, list: readonly unknown[] | undefined, rooms: number): Problem[] {
	if (list === undefined || list.length === rooms) return [];
	return [
		problem(
			'wrongLength',
			`${name} must have as many entries as there are rooms: ${rooms}, not ${list.length}.`
		)
	];
}
