/** What the record leaves open in a look ahead: drawn by its weights, within what the record allows, beside hand-made cases. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { spreadOf } from '#genetics/drop/spreadOf.ts';
import type { GroupEvent } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { drawOpen } from '#genetics/parents/drawOpen.ts';
import { kinshipRanges } from '#genetics/parents/kinshipRanges.ts';
import { drawnRooms, openRooms } from '#pedigree/figures/openRooms.ts';
import { roomsAhead } from '#pedigree/figures/roomsAhead.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import { livingGroups } from '#pedigree/livingGroups.ts';
import { simulateAhead } from '#planning/ahead/simulateAhead.ts';
import { foldOf, loadedScenario } from '#tests/server/demo/loadedScenario.ts';
import type { ClubState } from '#records/state.ts';

/** The father of the young is the mother's brother, with 3 in 10, or a stranger; aunts of another open brood mix in. */
const one = (unit: string) => ({ from: [{ unit, weight: 1 }], draw: 'one' as const });
const family: readonly GroupEvent[] = [
	...['sire', 'dam', 'stranger'].map((unit) => ({ kind: 'founders' as const, unit, count: 1 })),
	{
		...{ kind: 'spawn', fathers: one('sire'), mothers: one('dam') },
		young: [
			{ unit: 'brother', count: 1 },
			{ unit: 'sister', count: 1 }
		]
	},
	{
		...{ kind: 'spawn', mothers: one('sister') },
		fathers: {
			draw: 'one',
			from: [
				{ unit: 'brother', weight: 0.3 },
				{ unit: 'stranger', weight: 0.7 }
			]
		},
		young: [
			{ unit: 'sons', count: 3 },
			{ unit: 'daughters', count: 3 }
		]
	}
];

describe('one way in which all may have been', () => {
	it('is drawn by its weight, and the mean over draws is what the table expects, seed 5', () => {
		const random = randomFrom(5);
		const between = (events: readonly GroupEvent[]) =>
			kinshipBetween(groupKinship(events), ['sons'], ['daughters']);
		const drawn = Array.from({ length: 2000 }, () => between(drawOpen(family, random)));
		// Full brothers and sisters 1/4; of a brother and a sister 3/8 (Wright 1922).
		expect(new Set(drawn)).toEqual(new Set([0.25, 0.375]));
		const { mean, standardError } = spreadOf(drawn);
		expect(Math.abs(mean - between(family))).toBeLessThan(4 * standardError);
		expect(between(family)).toBeCloseTo(0.7 * 0.25 + 0.3 * 0.375, 12);
	});

	it('founders of a guessed kinship lie evenly between nothing and the most that it could be, seed 6', () => {
		const random = randomFrom(6);
		const shop: GroupEvent = {
			...{ kind: 'founders' as const, unit: 'shop', count: 6 },
			...{ within: 0.1, assumed: true, atMost: 0.25 }
		};
		const drawn = Array.from({ length: 1000 }, () => {
			const [event] = drawOpen([shop], random);
			return event?.kind === 'founders' ? event.within! : Number.NaN;
		});
		const { mean, standardError, low, high } = spreadOf(drawn);
		expect(Math.abs(mean - 0.125)).toBeLessThan(4 * standardError);
		expect(low).toBeLessThan(0.01);
		expect(high).toBeGreaterThan(0.24);
	});
});

it('futures have both: what chance does, and what is open, seed 7', () => {
	const table = groupKinship(family);
	const random = randomFrom(7);
	const line = {
		table,
		drawn: Array.from({ length: 20 }, () => groupKinship(drawOpen(family, random))),
		rooms: [
			{
				...{ room: 'room', house: 'room', takesPart: true, fathers: 3, mothers: 3 },
				...{ males: ['sons'], females: ['daughters'] }
			}
		],
		losses: { lost: 0, refilled: 0 }
	};
	const [course] = simulateAhead(line, [{ exchange: 'none', breeders: 'random', malesMoved: 1, every: 1 }], {
		...{ generations: 1, futures: 200, seed: 7 }
	});
	const [range] = kinshipRanges(family, [{ ask: 'between', these: ['sons'], those: ['daughters'] }]);
	const next = course![1]!;
	// The first young: the kinship of sons with daughters, as expected without chance, and either of the two in truth.
	expect(next.inbreeding!.low).toBeCloseTo(range!.expected, 12);
	expect(next.inbreeding!.high).toBeCloseTo(range!.expected, 12);
	expect(next.withRecord!.inbreeding.low).toBeCloseTo(range!.least, 12);
	expect(next.withRecord!.inbreeding.high).toBeCloseTo(range!.greatest, 12);
});

describe('the lines of the demo club', () => {
	const now = new Date('2026-11-26T10:00:00Z');
	let state: ClubState;
	let close: () => Promise<void>;
	beforeAll(async () => {
		const loaded = await loadedScenario(1, now);
		close = () => loaded.close();
		state = (await foldOf(loaded)).state;
	}, 120_000);
	afterAll(() => close());

	it('each draw lies between the least and the greatest that the record allows', () => {
		let asked = 0;
		for (const id of state.lines.keys()) {
			const kinship = lineKinships.of(state, id);
			const rooms = roomsAhead(
				kinship,
				livingGroups(state, kinship).map(({ group }) => group)
			);
			const open = openRooms(kinship, rooms);
			if (!open) continue;
			asked++;
			for (const table of drawnRooms(open, 8, 3)) {
				expect(table.units).toEqual(rooms.table.units);
				expect(table.count).toEqual(rooms.table.count);
				for (const [i, row] of table.between.entries())
					for (const [j, value] of row.entries()) {
						expect(value).toBeGreaterThanOrEqual(rooms.least.between[i]![j]! - 1e-9);
						expect(value).toBeLessThanOrEqual(rooms.greatest.between[i]![j]! + 1e-9);
					}
			}
		}
		expect(asked).toBeGreaterThan(3);
	});
});
