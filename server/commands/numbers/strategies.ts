/** `npm run numbers -- strategies`: what becomes of a line in equal rooms under one way of swapping and pairing. */
import * as z from 'zod';
import { simulateExchange } from '#planning/simulateExchange.ts';
import { read, type Question } from './question.ts';

const whole = (name: string, least: number, most: number) => {
	const error = `${name} must be a whole number from ${least} to ${most}`;
	return z.int({ error }).min(least, error).max(most, error);
};
/** Far beyond any club; the table of all kinships still fits into memory. */
const most = { rooms: 1_000, fish: 4_000, generations: 10_000, replicates: 1_000_000 };
const oneOf = <const Words extends readonly [string, ...string[]]>(name: string, words: Words) =>
	z.enum(words, { error: `${name} must be one of ${words.join(', ')}` });

const schema = z
	.strictObject({
		rooms: whole('rooms', 1, most.rooms),
		breedersPerRoom: whole('breedersPerRoom', 2, most.fish).multipleOf(2, 'breedersPerRoom must be even'),
		generations: whole('generations', 1, most.generations),
		exchange: oneOf('exchange', ['none', 'random', 'circle', 'rotating', 'leastRelated', 'full']),
		breeders: oneOf('breeders', ['random', 'equalised']).default('random'),
		pairs: oneOf('pairs', ['random', 'leastRelated']).default('random'),
		lambda: z.number({ error: 'lambda must be 0 or more' }).min(0, 'lambda must be 0 or more').default(0.1),
		bagEvery: whole('bagEvery', 1, most.generations).default(1),
		replicates: whole('replicates', 1, most.replicates),
		seed: z.int({ error: 'seed must be a whole number' })
	})
	.refine(({ rooms, exchange }) => exchange === 'none' || rooms >= 2, {
		path: ['rooms'],
		error: 'rooms must be at least 2 to exchange'
	})
	.refine(({ rooms, breedersPerRoom }) => rooms * breedersPerRoom <= most.fish, {
		path: ['breedersPerRoom'],
		error: `rooms times breedersPerRoom must be at most ${most.fish}`
	});

export const strategies: Question = (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const { generations, replicates, seed, ...strategy } = form.input;
	const course = simulateExchange(strategy, generations, replicates, seed);
	const { inbreeding, inbreedingSE, geneDiversity, geneDiversitySE } = course;
	return { answer: { inbreeding, inbreedingSE, geneDiversity, geneDiversitySE } };
};
