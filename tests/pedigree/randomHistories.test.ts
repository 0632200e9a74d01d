import { expect, it } from 'vitest';
import { groupEventProblems } from '#genetics/groups/groupEventProblems.ts';
import { lineEvents } from '#pedigree/lineEvents.ts';
import { relatednessOfYoung } from '#pedigree/relatednessOfYoung.ts';
import { Fold } from '#records/fold.ts';
import { randomHistory } from '#tests/helpers/randomHistory.ts';

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
