/** The demo club as a planning coordinator finds it: what a plan needs is there. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SeasonAsked } from '#season/seasonWords.ts';
import { defaultSettings } from '#season/seasonSettings.ts';
import { seasonProblem } from '#season/seasonProblem.ts';
import { seasonStart, type SeasonStart } from '#season/seasonStart.ts';
import type { Audience, Entry } from '#records/entry.ts';
import { foldOf, inputsOf, loadedScenario } from '#tests/server/demo/loadedScenario.ts';

const now = new Date('2026-11-26T10:00:00Z');
let start: SeasonStart;
let asked: SeasonAsked;
let close: () => Promise<void>;
beforeAll(async () => {
	const loaded = await loadedScenario(1, now);
	close = () => loaded.close();
	const fold = await foldOf(loaded);
	const me = loaded.scenario.members.find(({ key }) => key === 'maud')!.id;
	const words = (await inputsOf(loaded, 'officers')).map(({ text }) => JSON.parse(text ?? '') as Entry);
	const privateEntries = new Map<Audience, Map<string, Entry>>([
		['officers', new Map(words.map((entry) => [entry.id, entry]))]
	]);
	const asking = { now: now.getTime(), me, fold, privateEntries };
	start = seasonStart(fold.state, {}, asking);
	const settings = { ...defaultSettings, meeting: start.meetings[0]!.id };
	asked = seasonProblem(fold.state, { settings }, asking);
}, 120_000);
afterAll(() => close());

describe('the demo club', () => {
	it('has several lines to plan and a meeting ahead with rooms that come and one that does not', () => {
		expect(start.mayPlan).toBe(true);
		expect(start.lines.length).toBeGreaterThan(3);
		expect(start.meetings[0]?.coming.length).toBeGreaterThan(3);
		expect(start.meetings[0]?.notComing.length).toBeGreaterThan(0);
	});

	it('has fish to spare, offered and not, and rooms that wait', () => {
		const { problem, words } = asked;
		expect(new Set(words.sources.map(({ spareWhy }) => spareWhy)).size).toBe(2);
		expect(problem.sources.length).toBeGreaterThan(10);
		expect(problem.holdings.filter(({ waiting }) => waiting >= 0).length).toBeGreaterThan(2);
		expect(problem.wishes.map(({ id }) => id)).toEqual([expect.stringMatching(/^holders:/)]);
	});

	it('has two closed tanks, each named with why it gives nothing', () => {
		const closed = asked.words.leftOut.filter(({ why }) => why.endsWith('its tank is closed.'));
		expect(closed.map(({ roomName }) => roomName).sort()).toEqual(['Brook End', 'Orchard Garage']);
	});

	it('has two people that an officer does not pair, as two rooms apart', () => {
		const { problem, words } = asked;
		const apart = problem.apart.map((pair) => pair.map((room) => words.rooms[room]!.name).sort());
		expect(apart).toEqual([['Brook End', 'Orchard Garage']]);
		expect(start.officersWords).toBe(true);
	});

	it('has uncertain fathers, and says why a figure is wide', () => {
		const { problem, words } = asked;
		expect(problem.sources.some(({ within }) => within.greatest - within.least > 0.05)).toBe(true);
		expect(words.sources.filter(({ wide }) => /^the father of the brood/.test(wide)).length).toBeGreaterThan(
			0
		);
	});

	it('has every figure between its bounds', () => {
		const { problem } = asked;
		const ranges = problem.sources.flatMap(({ within, withFemales, withMales, withSources }) => [
			within,
			...[...withFemales, ...withMales, ...withSources].filter((range) => range !== null)
		]);
		for (const { expected, least, greatest } of ranges) {
			expect(least).toBeLessThanOrEqual(expected);
			expect(expected).toBeLessThanOrEqual(greatest);
			expect([least >= 0, greatest <= 1]).toEqual([true, true]);
		}
	});
});
