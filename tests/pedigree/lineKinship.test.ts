import { describe, expect, it } from 'vitest';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { settleBroods } from '#genetics/parents/settleBroods.ts';
import { uncertainBroods } from '#genetics/parents/uncertainBroods.ts';
import { drawnBetween, drawnTwice, weighed } from '#pedigree/figures/weighing.ts';
import { LineKinship } from '#pedigree/lineKinship.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { breedingHistory } from './breedingHistory.ts';

/** Sums of some thousand products. */
const close = { abs: 1e-11 };

describe('LineKinship against building everything again (seeds 1 to 12)', () => {
	for (let seed = 1; seed <= 12; seed++) {
		const state = breedingHistory(seed, 60).fold().state;
		const kinship = new LineKinship(state, 'cory');
		const all = kinship.fishOf([...kinship.events.units.keys()]);
		const standing = all.filter(({ unit }) => !kinship.table.emptied[unit]);
		const weighings = [
			drawnTwice(standing),
			drawnBetween(standing.slice(0, 2), standing.slice(-2)),
			drawnBetween(standing.slice(-3, -2), standing.slice(-1))
		];

		it(`one thing known at a time gives what the table of those events gives (seed ${seed})`, () => {
			for (const weighing of weighings) {
				const { open, expected } = kinship.figure(weighing);
				for (const { event, choices } of uncertainBroods(kinship.events.events)) {
					const values = choices.map((choice) =>
						weighed(groupKinship(settleBroods(kinship.events.events, new Map([[event, choice]]))), weighing)
					);
					const found = open.find((thing) => thing.event === event);
					expectClose(found?.least ?? expected, Math.min(expected, ...values), close);
					expectClose(found?.greatest ?? expected, Math.max(expected, ...values), close);
				}
			}
		});

		it(`any choice of all parents together lies between the bounds (seed ${seed})`, () => {
			const broods = uncertainBroods(kinship.events.events);
			for (let pick = 0; pick < 8; pick++) {
				const settled = new Map(
					broods.map(({ event, choices }, i) => [event, choices[(pick * 7 + i * 3) % choices.length]!])
				);
				const table = groupKinship(settleBroods(kinship.events.events, settled));
				for (const weighing of weighings) {
					const { least, greatest } = kinship.bounded(weighing);
					const value = weighed(table, weighing);
					expect(value).toBeGreaterThanOrEqual(least - close.abs);
					expect(value).toBeLessThanOrEqual(greatest + close.abs);
				}
			}
		});
	}
});

it('going on: one new brood at the end shares every earlier row', () => {
	const club = breedingHistory(3, 60);
	const before = new LineKinship(club.fold().state, 'cory');
	const again = new LineKinship(club.fold().state, 'cory', before.grown);
	expect(again.grown).toBe(before.grown);
	const parents = { of: [{ group: 'f0', standing: 'seen' as const }], others: false, number: 'one' as const };
	club.spawn('last', 'harbour', { fathers: parents, mothers: parents, at: 5000 });
	const after = new LineKinship(club.fold().state, 'cory', before.grown);
	const alone = new LineKinship(club.fold().state, 'cory');
	const size = before.table.units.length;
	expect(after.table.units.length).toBeLessThanOrEqual(size + 2);
	for (let i = 0; i < size; i++) expect(after.table.between[i]).toBe(before.table.between[i]);
	expect(JSON.stringify(after.table)).toBe(JSON.stringify(alone.table));
	expect(after.table.units).toEqual(alone.table.units);
});
