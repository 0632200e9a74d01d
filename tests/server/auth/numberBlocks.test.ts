import fc from 'fast-check';
import { expect, test } from 'vitest';
import { blockSize, giveNumberBlocks, skipNumbers, type NumberBlock } from '#server/club/numberBlocks.ts';
import { addClub, codeOf, openTestApp } from '../http/testApp.ts';

const numbersOf = (blocks: readonly NumberBlock[]) =>
	blocks.flatMap(({ first, last }) => Array.from({ length: last - first + 1 }, (_, i) => first + i));

test('blocks of one club never overlap, whatever devices ask in whatever order, at once or not (seed 11)', async () => {
	const app = await openTestApp();
	let club = 0;
	const asking = fc.array(
		fc.record({
			device: fc.integer({ min: 0, max: 4 }),
			request: fc.integer({ min: 0, max: 6 }),
			blocks: fc.integer({ min: 1, max: 3 })
		}),
		{ minLength: 1, maxLength: 12 }
	);
	await fc.assert(
		fc.asyncProperty(asking, fc.boolean(), async (asked, atOnce) => {
			const id = `club-${++club}`;
			await app.db
				.insertInto('club')
				.values({ id, name: id, timeZone: 'UTC', region: '', openedAt: 0 })
				.execute();
			const give = ({ device, request, blocks }: (typeof asked)[number]) =>
				giveNumberBlocks(app.db, id, `device-${device}`, {
					request: `r${request}`,
					blocks,
					at: app.clock.now
				});
			const given: NumberBlock[][] = [];
			if (atOnce) given.push(...(await Promise.all(asked.map(give))));
			else for (const one of asked) given.push(await give(one));
			// The same device with the same request got the same blocks; all others are apart.
			const distinct = new Map(asked.map(({ device, request }, i) => [`${device} ${request}`, given[i]!]));
			asked.forEach(({ device, request }, i) =>
				expect(given[i]).toEqual(distinct.get(`${device} ${request}`))
			);
			const numbers = [...distinct.values()].flatMap(numbersOf);
			expect(new Set(numbers).size).toBe(numbers.length);
			expect(Math.min(...numbers)).toBeGreaterThan(100);
			for (const { first, last } of given.flat()) expect(last - first + 1).toBe(blockSize);
		}),
		{ seed: 11, numRuns: 40 }
	);
}, 30_000);

test('a device gets at most forty blocks a day', async () => {
	const app = await openTestApp();
	await addClub(app);
	const ask = (request: string, blocks = 2) =>
		giveNumberBlocks(app.db, 'club', 'phone', { request, blocks, at: app.clock.now });
	for (let i = 0; i < 20; i++) await ask(`r${i}`);
	expect(await codeOf(ask('one too many', 1))).toBe('too-many-numbers');
	app.clock.now += 24 * 60 * 60_000;
	await ask('tomorrow');
});

test('numbers left out are never given', async () => {
	const app = await openTestApp();
	await addClub(app);
	const at = app.clock.now;
	const [before] = await giveNumberBlocks(app.db, 'club', 'phone', { request: 'a', blocks: 1, at });
	await skipNumbers(app.db, 'club', 5_000, at);
	const [after] = await giveNumberBlocks(app.db, 'club', 'phone', { request: 'b', blocks: 1, at });
	expect(after!.first).toBe(before!.last + 5_001);
});
