import { describe, expect, test } from 'vitest';
import { buildScenario } from '#server/demo/scenario/buildScenario.ts';

const buildWithinMs = 30_000;

describe('buildScenario', () => {
	test('gives the same club for the same seed and end, another for another seed', () => {
		const now = new Date('2026-11-25T12:00:00Z');
		const first = JSON.stringify(buildScenario({ seed: 3, now }));
		expect(JSON.stringify(buildScenario({ seed: 3, now }))).toBe(first);
		expect(JSON.stringify(buildScenario({ seed: 4, now }))).not.toBe(first);
	});

	test(
		'can be built for every day: 24 seeds and ends over a year, each with 1,500 entries at least',
		() => {
			for (let seed = 1; seed <= 24; seed++) {
				const now = new Date(Date.UTC(2026, seed % 12, 1 + (seed % 28), seed % 24));
				const { entries, rooms } = buildScenario({ seed, now });
				expect(entries.length, `seed ${seed}`).toBeGreaterThanOrEqual(1_500);
				const bodies = (kind: string) =>
					entries
						.filter(({ entry }) => entry.kind === kind)
						.map(({ entry }) => entry.body as Record<string, string>);
				const nook = rooms.find(({ key }) => key === 'nook')?.id;
				expect(
					bodies('spawn/seen').some(({ room }) => room === nook),
					`first drop, seed ${seed}`
				).toBe(true);
				const eggBags = bodies('group/eggsStored').filter(
					({ wetDue = '' }) => wetDue > now.toISOString().slice(0, 10)
				);
				expect(eggBags.length, `egg bags, seed ${seed}`).toBeGreaterThanOrEqual(1);
			}
		},
		buildWithinMs
	);
});
