/** The demo club's lines looked at ahead: the ring and the chance of loss from its own record. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chanceOfLoss } from '#planning/chanceOfLoss.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import type { ClubState } from '#records/state.ts';
import { lineAhead, type LineAhead } from '#season/ahead/lineAhead.ts';
import { lossAhead } from '#season/ahead/lossAhead.ts';
import { lossRecord } from '#season/ahead/lossRecord.ts';
import type { QuestionContext } from '#workers/questions.ts';
import { foldOf, loadedScenario } from '#tests/server/demo/loadedScenario.ts';

const now = new Date('2026-11-26T10:00:00Z');
let state: ClubState;
let lines: LineAhead[];
let context: QuestionContext;
let close: () => Promise<void>;
beforeAll(async () => {
	const loaded = await loadedScenario(1, now);
	close = () => loaded.close();
	const fold = await foldOf(loaded);
	state = fold.state;
	context = { now: now.getTime(), me: 'nobody', fold, privateEntries: new Map() };
	lines = [...state.lines.keys()].flatMap((line) => lineAhead(state, { line }, context) ?? []);
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
	const asked = (together: 'alone' | 'atTimes' | 'often', bags: 'all' | 'most' | 'half') =>
		[...state.lines.keys()].flatMap((line) => lossAhead(state, { line, together, bags }, context) ?? []);

	it('is that of the chain with the rates as learned, and one more room never harms', () => {
		const all = asked('alone', 'all');
		expect(all.length).toBeGreaterThan(3);
		for (const loss of all) {
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
			expect(loss.oneMoreLeaves.expected).toBeCloseTo(loss.oneMore.expected[9]! / chain[9]!, 12);
			expect(loss.oneMoreLeaves.low).toBeLessThanOrEqual(loss.oneMoreLeaves.expected);
			expect(loss.oneMoreLeaves.high).toBeGreaterThanOrEqual(loss.oneMoreLeaves.expected);
			// (1 - (1 - p)^T)^K, where no room is filled again.
			expect(loss.neverFilled.expected[9]).toBeCloseTo((1 - (1 - loss.rate.expected) ** 10) ** holders, 12);
		}
	});

	it('a plan fills rooms at least as well as a ring, a ring better than nobody; worse the more rooms hang together', () => {
		const alone = asked('alone', 'all');
		const half = asked('alone', 'half');
		const often = asked('often', 'all');
		expect(alone.filter(({ rounds }) => rounds).length).toBeGreaterThan(3);
		for (const [i, { rounds, neverFilled, rooms, houses }] of alone.entries()) {
			if (!rounds) continue;
			const [plan, ring] = [rounds.plan.expected[9]!, rounds.ring.expected[9]!];
			expect(plan).toBeLessThanOrEqual(ring + 1e-12);
			if (rounds.rooms === rooms) expect(ring).toBeLessThanOrEqual(neverFilled.expected[9]! + 1e-12);
			expect(half[i]!.rounds!.ring.expected[9]).toBeGreaterThanOrEqual(ring - 1e-12);
			if (houses > 1) expect(often[i]!.rounds!.plan.expected[9]).toBeGreaterThan(plan);
			expect(rounds.ring.low[9]).toBeLessThanOrEqual(ring);
			expect(rounds.ring.high[9]).toBeGreaterThanOrEqual(ring);
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
