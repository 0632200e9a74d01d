/** `npm run numbers -- strategies`: what becomes of a line in equal rooms under one way of swapping and pairing. */
import * as z from 'zod';
import { simulateExchange } from '#planning/simulateExchange.ts';
import { read, type Question } from './question.ts';

const whole = (name: string, least: number) =>
	z
		.int({ error: `${name} must be a whole number of at least ${least}` })
		.min(least, `${name} must be a whole number of at least ${least}`);
const oneOf = <const Words extends readonly [string, ...string[]]>(name: string, words: Words) =>
	z.enum(words, { error: `${name} must be one of ${words.join(', ')}` });

const schema = z
	.strictObject({
		rooms: whole('rooms', 1),
		breedersPerRoom: whole('breedersPerRoom', 2).multipleOf(2, 'breedersPerRoom must be even'),
		generations: whole('generations', 1),
		exchange: oneOf('exchange', ['none', 'random', 'circle', 'rotating', 'leastRelated', 'full']),
		breeders: oneOf('breeders', ['random', 'equalised']).default('random'),
		pairs: oneOf('pairs', ['random', 'leastRelated']).default('random'),
		lambda: z.number({ error: 'lambda must be 0 or more' }).min(0, 'lambda must be 0 or more').default(0.1),
		bagEvery: whole('bagEvery', 1).default(1),
		replicates: whole('replicates', 1),
		seed: z.int({ error: 'seed must be a whole number' })
	})
	.refine(({ rooms, exchange }) => exchange === 'none' || rooms >= 2, {
		path: ['rooms'],
		error: 'rooms must be at least 2 to exchange'
	});

export const strategies: Question = (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const { generations, replicates, seed, ...strategy } = form.input;
	const course = simulateExchange(strategy, generations, replicates, seed);
	const { inbreeding, inbreedingSE, geneDiversity, geneDiversitySE } = course;
	return { answer: { inbreeding, inbreedingSE, geneDiversity, geneDiversitySE } };
};
