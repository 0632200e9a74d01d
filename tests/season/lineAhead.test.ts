/** The demo club's lines looked at ahead: the ring and the chance of loss from its own record. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chanceOfLoss } from '#planning/chanceOfLoss.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import type { ClubState } from '#records/state.ts';
import { lineAhead, type LineAhead } from '#season/ahead/lineAhead.ts';
import { lossRecord } from '#season/ahead/lossRecord.ts';
import { foldOf, loadedScenario } from '#tests/server/demo/loadedScenario.ts';

const now = new Date('2026-11-26T10:00:00Z');
let state: ClubState;
let lines: LineAhead[];
let close: () => Promise<void>;
beforeAll(async () => {
	const loaded = await loadedScenario(1, now);
	close = () => loaded.close();
	const fold = await foldOf(loaded);
	state = fold.state;
	lines = [...state.lines.keys()].flatMap(
		(line) => lineAhead(state, { line }, { now: now.getTime(), me: 'nobody', fold }) ?? []
	);
}, 120_000);
afterAll(() => close());

describe('the ring', () => {
	it('names every room that holds the line once: in the ring, or out of it with a sentence why', () => {
		expect(lines.some(({ ring }) => ring.rooms.length > 3)).toBe(true);
		expect(lines.some(({ ring }) => ring.out.length > 0)).toBe(true);
		for (const { ring, holders } of lines) {
			const rooms = [...ring.rooms, ...ring.out].map(({ room }) => room);
			expect(new Set(rooms).size).toBe(rooms.length);
			expect(rooms.length).toBeGreaterThanOrEqual(holders);
			expect(ring.rooms.map(({ to }) => to)).toEqual(ring.rooms.map((_, i) => (i + 1) % ring.rooms.length));
			for (const { why } of ring.out) expect(why).toMatch(/\.$/);
		}
	});

	it('has no closed room', () => {
		for (const { ring } of lines)
			for (const { room } of ring.rooms) expect(state.rooms.get(room)?.closed ?? null).toBeNull();
	});
});

describe('the chance of loss', () => {
	it('is that of the chain with the rates as learned, and one more room never harms', () => {
		const asked = lines.flatMap(({ loss }) => loss ?? []);
		expect(asked.length).toBeGreaterThan(3);
		for (const loss of asked) {
			const holders = Math.min(12, loss.houses);
			const chain = chanceOfLoss(
				{
					...{ holders, maxHolders: holders, lossPerYear: loss.rate.expected },
					...{ restockPerHolder: loss.refilled, correlation: 0 }
				},
				20
			);
			expect(loss.goesOn.expected).toEqual(chain);
			expect(loss.oneMore.expected[9]).toBeLessThanOrEqual(chain[9]!);
			expect(loss.neverFilled.expected[9]).toBeGreaterThanOrEqual(chain[9]!);
		}
	});

	it('rests on the years and losses of the whole club', () => {
		const record = lossRecord(state, now.getTime());
		expect(record.years).toBeGreaterThan(5);
		expect(Number.isInteger(record.lost)).toBe(true);
		for (const { loss } of lines) if (loss) expect(loss.record).toEqual(record);
	});
});

it('each line that can breed can be played', () => {
	const playable = lines.flatMap(({ line }) => line ?? []);
	expect(playable.length).toBeGreaterThan(3);
	for (const line of playable)
		for (const exchange of ['ring', 'leastRelated'] as const) {
			const strategy = { exchange, breeders: 'even', malesMoved: 1, every: 1 } as const;
			const [course] = simulateAhead(line, [strategy], { generations: 5, futures: 5, seed: 1 });
			expect(course).toHaveLength(6);
		}
});
