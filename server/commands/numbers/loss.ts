/** `npm run numbers -- loss`: how likely every room has lost a line, year by year. */
import * as z from 'zod';
import { chanceOfLoss } from '#planning/chanceOfLoss.ts';
import { read, type Question } from './question.ts';

const share = (name: string) =>
	z
		.number({ error: `${name} must be from 0 to 1` })
		.min(0, `${name} must be from 0 to 1`)
		.max(1, `${name} must be from 0 to 1`);
const whole = (name: string, least: number, most: number) => {
	const error = `${name} must be a whole number from ${least} to ${most}`;
	return z.int({ error }).min(least, error).max(most, error);
};
/** Far beyond any club, and still answered. */
const mostHolders = 2_000;
const mostYears = 10_000;

const schema = z
	.strictObject({
		holders: whole('holders', 0, mostHolders),
		lossPerYear: share('lossPerYear'),
		years: whole('years', 1, mostYears),
		restockPerHolder: share('restockPerHolder').default(0),
		maxHolders: whole('maxHolders', 0, mostHolders).optional(),
		correlation: z
			.number({ error: 'correlation must be at least 0 and below 1' })
			.min(0, 'correlation must be at least 0 and below 1')
			.lt(1, 'correlation must be at least 0 and below 1')
			.default(0)
	})
	.refine(({ holders, maxHolders }) => maxHolders === undefined || maxHolders >= holders, {
		path: ['maxHolders'],
		error: 'maxHolders must not be below holders'
	});

export const loss: Question = (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const { years, maxHolders, ...line } = form.input;
	return { answer: { lost: chanceOfLoss({ ...line, maxHolders: maxHolders ?? line.holders }, years) } };
};
