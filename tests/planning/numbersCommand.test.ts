/** The questions about planning as the command answers them. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';

function numbers(question: string, input: object): { code: number | null; out: unknown; told: string } {
	const result = spawnSync(process.execPath, ['server/commands/numbers.ts', question], {
		cwd: join(import.meta.dirname, '../..'),
		input: JSON.stringify(input),
		encoding: 'utf8'
	});
	return { code: result.status, out: JSON.parse(result.stdout), told: result.stderr };
}

const twoRooms = {
	rooms: 2,
	males: [2, 2],
	females: [2, 2],
	theta: [
		[0.25, 0.05],
		[0.05, 0.125]
	],
	bagsOutMax: [1, 1],
	bagsInMax: [1, 1],
	forbidden: [],
	maxIncomingKinship: 0.25,
	tripCost: [
		[0, 1],
		[1, 0]
	],
	tripBudget: 1,
	lambdaGlobal: 0
};

test('plan: one trip goes where it helps most', () => {
	const { code, out } = numbers('plan', twoRooms);
	expect(code).toBe(0);
	expect(out).toMatchObject({ donor: [1, -1], optimal: true });
});

test('plan: all that is wrong is said at once', () => {
	const { code, out, told } = numbers('plan', {
		...twoRooms,
		males: [2],
		theta: [[0.25, 0.05], [0.1]],
		forbidden: [[0, 7]]
	});
	expect(code).toBe(2);
	const codes = (out as { problems: { code: string }[] }).problems.map((problem) => problem.code);
	expect(codes.toSorted()).toEqual(['roomUnknown', 'wrongLength', 'wrongLength']);
	expect(told.trim().split('\n')).toHaveLength(3);
});

test('strategies: full sibs in one room (Wright 1921)', () => {
	const { code, out } = numbers('strategies', {
		...{
			rooms: 1,
			breedersPerRoom: 2,
			generations: 4,
			exchange: 'none',
			breeders: 'random',
			pairs: 'random'
		},
		...{ lambda: 0.1, bagEvery: 1, replicates: 2, seed: 1 }
	});
	expect(code).toBe(0);
	expect((out as { inbreeding: number[] }).inbreeding).toEqual([0, 0.25, 0.375, 0.5]);
});

test('strategies: a ring needs two rooms', () => {
	const { code, told } = numbers('strategies', {
		...{ rooms: 1, breedersPerRoom: 2, generations: 4, exchange: 'circle', replicates: 2, seed: 1 }
	});
	expect(code).toBe(2);
	expect(told).toBe('rooms is not as it must be: rooms must be at least 2 to exchange.\n');
});

test('loss: three rooms, one in five lost a year', () => {
	const { code, out } = numbers('loss', { holders: 3, lossPerYear: 0.2, years: 5 });
	expect(code).toBe(0);
	expect((out as { lost: number[] }).lost.at(-1)).toBeCloseTo((1 - 0.8 ** 5) ** 3, 12);
});

test.each([
	['loss', { holders: 1e7, lossPerYear: 0.2, years: 3 }, 'holders must be a whole number from 0 to 2000'],
	['loss', { holders: 2, lossPerYear: 0.2, years: 1e9 }, 'years must be a whole number from 1 to 10000'],
	[
		'strategies',
		{ rooms: 900, breedersPerRoom: 100, generations: 1, exchange: 'none', replicates: 1, seed: 1 },
		'rooms times breedersPerRoom must be at most 4000'
	],
	['plan', { ...twoRooms, forbidden: [[0]] }, 'a forbidden bag must be two rooms, [from, to]'],
	['plan', { ...twoRooms, females: undefined }, 'females is missing']
])('%s: what cannot be answered is one sentence: %j', (question, input, sentence) => {
	const { code, out, told } = numbers(question, input);
	expect(code).toBe(2);
	expect((out as { problems: object[] }).problems).toHaveLength(1);
	expect(told).toContain(`${sentence}.\n`);
});
