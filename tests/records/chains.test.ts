import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '#records/entry.ts';
import { Fold } from '#records/fold.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { shuffled, uuid7 } from '#tests/helpers/randomHistory.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { fishOf, newClub, type Story } from './story.ts';

const seed = 1922;

/**
 * Chains in which each link leans on the one before: a group told of by somebody with no part, taken from the group
 * before it, confirmed by a keeper, the tap taken back, that taken back in turn; and counts that correct each other in
 * circles, with taps and corrections on top of the circle.
 */
function tangle(of: number, links: number): Story {
	const random = randomFrom(of);
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
	const story = newClub();
	const members = ['kim', 'kai', 'kit', 'nora', 'olga', 'cora', 'fay'];
	story.start('kim', 'g0', 'r1', 'lA', fishOf(9, 9, 0));
	const told: string[] = [];
	for (let link = 1; link <= links; link++) {
		const room = pick(['r1', 'r2', 'r3']);
		const body = {
			...{ group: `g${link}`, line: 'lA', room, name: '', tank: '' },
			origin: { from: 'group', groups: [`g${link - 1}`] },
			...{ fish: fishOf(2, 2, 0), certainty: 'counted', stage: null }
		};
		const start = story.tell('nora', 'group/started', body);
		const tap = story.tell(pick(members), 'word/confirmed', { entry: start });
		const moved = { from: `g${link - 1}`, to: `g${link}`, room, fish: fishOf(1, 0, 0) };
		const move = story.tell(pick(members), 'group/moved', moved);
		told.push(start, tap, move, story.tell(pick(members), 'word/confirmed', { entry: move }));
		if (random() < 0.5)
			told.push(story.tell(pick(members), 'word/withdrawn', { reason: '' }, { corrects: [pick(told)] }));
		if (random() < 0.4) circle(story, link, random, told, members);
	}
	return story;
}

/** Two to four counts that correct each other in a circle: only a device that knows ids beforehand can write it. */
function circle(
	story: Story,
	link: number,
	random: () => number,
	told: string[],
	members: readonly string[]
): void {
	const size = 2 + Math.floor(random() * 3);
	const ids = Array.from({ length: size }, (_, i) => uuid7(story.now + i, 7_000_000 + link * 10 + i));
	ids.forEach((id, i) => {
		const by = members[Math.floor(random() * members.length)]!;
		const entry: Entry = {
			...{ id, kind: 'group/counted', version: 1, by, device: `${by}-phone` },
			...{ happened: '2026-01-05', about: [`g${link}`], corrects: [ids[(i + 1) % size]!] },
			body: { group: `g${link}`, room: null, fish: fishOf(i, i, 0), certainty: 'counted' }
		};
		story.inputs.push({ entry });
	});
	told.push(story.count('kim', `g${link}`, fishOf(1, 1, 1), { corrects: [ids[0]!] }));
	told.push(story.tell('kai', 'word/confirmed', { entry: ids[1]! }));
}

describe('chains of confirming taps and circles of corrections', () => {
	const cases = fc.record({ of: fc.nat(1e6), links: fc.integer({ min: 1, max: 7 }), order: fc.nat(1e6) });

	it(`[R3] saved after any part, restored, the rest added: the fold of all (seed ${seed})`, () => {
		fc.assert(
			fc.property(cases, fc.double({ min: 0, max: 1, noNaN: true }), ({ of, links, order }, share) => {
				const { inputs } = tangle(of, links);
				const whole = new Fold();
				whole.add(inputs);
				const mixed = shuffled(inputs, order);
				const cut = Math.floor(mixed.length * share);
				const half = new Fold();
				half.add(mixed.slice(0, cut));
				const restored = Fold.restore(structuredClone(half.save()));
				for (const input of mixed.slice(cut)) restored?.add([input]);
				expect(restored && foldPicture(restored)).toEqual(foldPicture(whole));
			}),
			{ seed, numRuns: 120 }
		);
	});

	it(`[R14] [R27] the tangles hold both: taps that make something count, and circles (seed ${seed})`, () => {
		const verdicts = new Set<string>();
		let madeToCount = 0;
		for (let of = 0; of < 40; of++) {
			const fold = tangle(of, 5).fold();
			for (const id of fold.ids()) {
				const view = fold.view(id);
				verdicts.add(`${fold.entry(id)?.kind} ${view?.verdict.name}`);
				if (fold.entry(id)?.by === 'nora' && view?.verdict.name === 'counts') madeToCount++;
			}
		}
		expect([...verdicts]).toEqual(
			expect.arrayContaining([
				'group/started counts',
				'group/started told by',
				'group/moved counts',
				'group/moved told by',
				'group/counted not understood'
			])
		);
		expect(madeToCount).toBeGreaterThan(20);
	});
});
