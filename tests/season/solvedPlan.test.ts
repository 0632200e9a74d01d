/** From the record through the solver to proposals, answers and repair. */
import loadHighs, { type Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { planSeason } from '#planning/season/planSeason.ts';
import type { PossibleBag } from '#planning/season/season.ts';
import { seasonStops } from '#planning/season/seasonStops.ts';
import { bagSentence } from '#season/bagSentence.ts';
import { clashSentence } from '#season/clashSentence.ts';
import { planSentence } from '#season/planSentence.ts';
import { proposalsOf } from '#season/proposalsOf.ts';
import { repairSettings } from '#season/repairSettings.ts';
import { defaultSettings, type SeasonSettings } from '#season/seasonSettings.ts';
import type { SeasonAsked } from '#season/seasonWords.ts';
import { fish, roomOf, SeasonClub } from './seasonClub.ts';

let solver: Highs;
beforeAll(async () => {
	solver = await loadHighs();
});
const seconds = 20;
const settings: SeasonSettings = { ...defaultSettings, meeting: 'winter', sexes: 'males', bagsAtMost: 6 };

/** Four rooms whose fish are brothers and sisters inside each room, and a fifth that waits. */
function club(): SeasonClub {
	const made = new SeasonClub().line('blue');
	const origin = (room: string) => ({ from: 'founders', source: `shop ${room}`, related: 'one brood' });
	const sizes = { harbour: fish(6, 4), mill: fish(5, 4), orchard: fish(6, 5), upper: fish(7, 5) };
	for (const [room, size] of Object.entries(sizes))
		made.group(`of-${room}`, room, 'blue', size, { origin: origin(room) });
	return made.want('blue', 'attic', 30).meeting();
}
function sent(made: SeasonClub) {
	const asked = made.asked(settings);
	const plan = planSeason(asked.problem, { solver, seconds });
	let count = 0;
	const drafts = proposalsOf(asked, plan, plan.bags, {
		...{ plan: { id: 'p', name: 'Winter' }, meeting: 'winter', asked: true, happened: '2026-11-24' },
		newId: () => `x${(count += 1)}`
	});
	for (const { kind, body } of drafts) made.say('officer', kind, body as Record<string, unknown>, 2);
	return { asked, plan };
}

describe('a plan from the record', () => {
	it('is proven, stands against no stop, lowers the inbreeding and gives to who waits', () => {
		const { asked, plan } = sent(club());
		expect([plan.isProven, plan.givenUp]).toEqual([true, []]);
		expect(seasonStops(asked.problem, plan.bags)).toEqual([]);
		expect(plan.figures.meanAfter).toBeLessThan(plan.figures.meanBefore);
		const rooms = plan.bags.map(
			({ holding }) => asked.words.rooms[asked.problem.holdings[holding]!.room]!.id
		);
		expect(rooms).toContain('attic');
		expect(planSentence(asked, plan)).toContain('No better plan exists for what was asked.');
		for (const bag of plan.bags) expect(bagSentence(asked, plan, bag).reason).toMatch(/^[A-Z].*\.$/);
	});

	it('keeps people apart who are not to be paired', () => {
		const made = club();
		made.notToPair(['harbour-keeper', 'mill-keeper']);
		const { asked, plan } = sent(made);
		const between = plan.bags.filter(({ gives, holding }) => {
			const to = asked.words.rooms[asked.problem.holdings[holding]!.room]!.id;
			const from = gives.map(({ source }) => asked.words.rooms[asked.problem.sources[source]!.room]!.id);
			return from.some((room) => [room, to].sort().join() === 'harbour,mill');
		});
		expect(between).toEqual([]);
		expect(plan.bags.length).toBeGreaterThan(2);
	});

	it('says which wish it gives up when wishes clash', () => {
		const asked = club().asked({ ...settings, bagsAtMost: 0, newBloodFor: [['blue', 'mill']] });
		const plan = planSeason(asked.problem, { solver, seconds });
		expect(plan.givenUp.length).toBe(1);
		const said = clashSentence(asked, plan);
		expect(said).toMatch(/^These cannot all be: .*\. This plan leaves out: .*\.$/);
		expect(said).toContain('no bags');
		expect(said).toContain('new blood of blue guppy for Mill room');
	});
});

describe('repair after a no', () => {
	it('fills the hole without the declined bag and keeps the agreed ones', () => {
		const made = club();
		const { asked: before, plan } = sent(made);
		const roomIn = ({ problem }: SeasonAsked, holding: number) =>
			problem.rooms[problem.holdings[holding]!.room]!.id;
		const giverOf = (of: PossibleBag) => before.problem.sources[of.gives[0]!.source]!.room;
		// A bag to a room that gets no other, from a room that has part in others too.
		const bag = plan.bags.findIndex(
			(one) =>
				roomIn(before, one.holding) !== 'attic' &&
				plan.bags.every((other) => other === one || other.holding !== one.holding) &&
				plan.bags.some((other) => other !== one && giverOf(other) === giverOf(one))
		);
		const hole = roomIn(before, plan.bags[bag]!.holding);
		const declined = plan.bags[bag]!;
		const giver = before.problem.rooms[before.problem.sources[declined.gives[0]!.source]!.room]!.id;
		plan.bags.forEach(({ gives, holding }, i) => {
			const rooms = gives.map(({ source }) => before.problem.rooms[before.problem.sources[source]!.room]!.id);
			const to = before.problem.rooms[before.problem.holdings[holding]!.room]!.id;
			for (const room of new Set([...rooms, to]))
				made.answer(`x${i + 1}`, 'blue', room, i === bag && room === giver ? 'no' : 'yes');
		});
		const fold = made.fold();
		const repair = repairSettings(fold.state, { plan: 'p', from: settings }, made.asking(fold))!;
		const asked = made.asked(repair.settings);
		const again = planSeason(asked.problem, { solver, seconds });
		const keys = again.bags.map(({ key }) => key);
		const kept = plan.bags.map(({ key }) => key).filter((key) => key !== declined.key);
		expect(kept.filter((key) => !keys.includes(key))).toEqual([]);
		expect(keys).not.toContain(declined.key);
		expect(again.givenUp).toEqual([]);
		const filled = again.bags.filter(({ key }) => !(key in repair.stands));
		expect(filled.map(({ holding }) => roomIn(asked, holding))).toContain(hole);
		// What is sent now is only what is new.
		expect(keys.filter((key) => !(key in repair.stands)).length).toBe(keys.length - kept.length);
		expect(roomOf(asked, giver)?.isClosed).toBe(false);
	});
});
