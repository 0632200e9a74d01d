import { expect, it } from 'vitest';
import { groupEventProblems } from '#genetics/groups/groupEventProblems.ts';
import { lineEvents } from '#pedigree/lineEvents.ts';
import { relatednessOfYoung } from '#pedigree/relatednessOfYoung.ts';
import { Fold } from '#records/fold.ts';
import { LineKinship } from '#pedigree/lineKinship.ts';
import { drawnTwice } from '#pedigree/figures/weighing.ts';
import { randomHistory, seeded } from '#tests/helpers/randomHistory.ts';
import { livelyHistory } from './breedingHistory.ts';
import type { Written } from './builders.ts';

const now = Date.UTC(2025, 0, 1);

it('any history gives events that fit and figures from 0 to 1 (seeds 1 to 60)', () => {
	let asked = 0;
	for (let seed = 1; seed <= 60; seed++) {
		const fold = new Fold();
		fold.add(randomHistory(seed, 250).inputs);
		for (const line of fold.state.lines.keys()) {
			expect(groupEventProblems(lineEvents(fold.state, line).events), `seed ${seed}`).toEqual([]);
			for (const toRoom of fold.state.rooms.keys()) {
				const answer = relatednessOfYoung({ state: fold.state, line, toRoom, now });
				for (const one of [...answer.candidates, ...(answer.have ? [answer.have] : [])]) {
					asked++;
					const inOrder =
						0 <= one.least && one.least <= one.expected && one.expected <= one.greatest && one.greatest <= 1;
					expect(inOrder, `seed ${seed}`).toBe(true);
				}
			}
		}
	}
	expect(asked).toBeGreaterThan(200);
});

/** Entries as they may come in: in any order, in two halves, some of them twice. */
function anyOrder(written: readonly Written[], seed: number): Written[] {
	const random = seeded(seed);
	const again = written.filter(() => random() < 0.2);
	return [...written, ...again]
		.map((one) => [random(), one] as const)
		.sort((a, b) => a[0] - b[0])
		.map(([, one]) => one);
}

it('the events of a line are the same whatever the order of arrival (seeds 1 to 30)', () => {
	for (let seed = 1; seed <= 30; seed++) {
		const club = livelyHistory(seed, 40);
		const { events, times, units, fishNow, widened } = lineEvents(club.fold().state, 'cory');
		expect(groupEventProblems(events), `seed ${seed}`).toEqual([]);
		for (let order = 1; order <= 3; order++) {
			const fold = new Fold();
			const all = anyOrder(club.written, seed * 100 + order);
			fold.add(all.slice(0, all.length / 2));
			fold.add(all.slice(all.length / 2));
			const again = lineEvents(fold.state, 'cory');
			expect(again.events, `seed ${seed}, order ${order}`).toEqual(events);
			expect([again.times, again.units, again.fishNow, again.widened]).toEqual([
				times,
				units,
				fishNow,
				widened
			]);
		}
	}
});

it('going on from an earlier table is the same as starting over, entry by entry (seeds 31 to 36)', () => {
	for (let seed = 31; seed <= 36; seed++) {
		const club = livelyHistory(seed, 30);
		const byTime = [...club.written].sort((a, b) => (a.entry.happened < b.entry.happened ? -1 : 1));
		let grown = null;
		for (let told = 40; told <= byTime.length; told += 7) {
			const { state } = club.fold(() => byTime.slice(0, told));
			const kinship: LineKinship = new LineKinship(state, 'cory', grown);
			const alone = new LineKinship(state, 'cory');
			expect(kinship.table, `seed ${seed}, ${told} entries`).toEqual(alone.table);
			const { least, expected, greatest } = kinship.figure(
				drawnTwice(kinship.fishOf([...kinship.events.units.keys()]))
			);
			expect(0 <= least && least <= expected && expected <= greatest && greatest <= 1).toBe(true);
			grown = kinship.grown;
		}
	}
});
