/** Plan B in words, and used after a real no. */
import loadHighs, { type Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { bagsOfKeys } from '#planning/season/bagsOfKeys.ts';
import { planB, type PlanBAnswer } from '#planning/season/planB.ts';
import { planSeason } from '#planning/season/planSeason.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { planBPrepared } from '#season/planBPrepared.ts';
import { planBSentence } from '#season/planBSentence.ts';
import { proposalsOf } from '#season/proposalsOf.ts';
import { repairSettings } from '#season/repairSettings.ts';
import { defaultSettings, type SeasonSettings } from '#season/seasonSettings.ts';
import { fish, SeasonClub } from './seasonClub.ts';

let solver: Highs;
beforeAll(async () => {
	solver = await loadHighs();
});
const seconds = 20;
const settings: SeasonSettings = { ...defaultSettings, meeting: 'winter', sexes: 'males' };

/** Four rooms whose fish are brothers and sisters inside each room. */
function club(): SeasonClub {
	const made = new SeasonClub().line('blue');
	const origin = (room: string) => ({ from: 'founders', source: `shop ${room}`, related: 'one brood' });
	const sizes = { harbour: fish(6, 4), mill: fish(5, 4), orchard: fish(6, 5), upper: fish(7, 5) };
	for (const [room, size] of Object.entries(sizes))
		made.group(`of-${room}`, room, 'blue', size, { origin: origin(room) });
	return made.meeting();
}
function planned(made = club(), more: Partial<SeasonSettings> = {}) {
	const asked = made.asked({ ...settings, ...more });
	const plan = planSeason(asked.problem, { solver, seconds });
	return { asked, plan, answers: planB(asked.problem, plan.bags, { solver, seconds }) };
}
const refusedOf = (answers: readonly PlanBAnswer[]) => answers.filter((one) => one.case.if === 'refused');

describe('plan B in words', () => {
	it('names what comes instead, and its figures are those of the bags then', () => {
		const { asked, plan, answers } = planned(club(), { bagsAtMost: 2 });
		for (const answer of answers) {
			const said = planBSentence(asked, plan, answer);
			expect(said.then.figures).toEqual(seasonFigures(asked.problem, bagsOfKeys(asked.problem, answer.keys)));
			expect(said.alsoGone).toEqual([]);
			expect(said.none === '').toBe(said.instead.length > 0);
			for (const instead of said.instead) expect(instead).toMatch(/^\dm of BLUE: \w+ room to \w+ room$/);
		}
		expect(refusedOf(answers).length).toBe(plan.bags.length);
		expect(refusedOf(answers).some((answer) => planBSentence(asked, plan, answer).instead.length)).toBe(true);
	});

	it('says who waits where nothing as good can come, and nobody where a room itself is out', () => {
		const made = new SeasonClub().line('blue');
		const oneBrood = { origin: { from: 'founders', source: 'a shop', related: 'one brood' } };
		made
			.group('of-harbour', 'harbour', 'blue', fish(6, 6))
			.group('of-mill', 'mill', 'blue', fish(2, 3), oneBrood);
		const { asked, plan, answers } = planned(made.meeting());
		expect(plan.bags.length).toBe(1);
		const said = (of: PlanBAnswer['case']['if'], room = '') =>
			answers
				.filter((one) => one.case.if === of && (one.case.if === 'refused' || one.case.room === room))
				.map((one) => planBSentence(asked, plan, one).none);
		expect(said('refused')).toEqual(['Nothing as good can come: Mill room (BLUE) waits.']);
		expect(said('dropsOut', 'harbour')).toEqual(['Nothing as good can come: Mill room (BLUE) waits.']);
		expect(said('dropsOut', 'mill')).toEqual(['No other bag is worth it. The others stand as they are.']);
	});

	it('what stands and is left out all the same is told', () => {
		const { asked, plan, answers } = planned(club(), { bagsAtMost: 2 });
		const [answer] = refusedOf(answers);
		const other = plan.bags.find(({ key }) => answer!.case.if === 'refused' && key !== answer!.case.bag)!;
		const fewer = { ...answer!, keys: answer!.keys.filter((key) => key !== other.key) };
		expect(planBSentence(asked, plan, fewer).alsoGone.length).toBe(1);
	});
});

describe('plan B after a real no', () => {
	/** Sent with two bags at most; the giver of the first says no. */
	function refused() {
		const made = club();
		const { asked, plan, answers } = planned(made, { bagsAtMost: 2 });
		let count = 0;
		const drafts = proposalsOf(asked, plan, plan.bags, {
			...{ plan: { id: 'p', name: 'Winter' }, meeting: 'winter', asked: true, happened: '2026-11-24' },
			newId: () => `x${(count += 1)}`
		});
		for (const { kind, body } of drafts) made.say('officer', kind, body as Record<string, unknown>, 2);
		const first = plan.bags[0]!;
		const { problem } = asked;
		made.answer('x1', 'blue', problem.rooms[problem.sources[first.gives[0]!.source]!.room]!.id, 'no');
		const fold = made.fold();
		const from = { ...settings, bagsAtMost: 2 };
		const repair = repairSettings(fold.state, { plan: 'p', from }, made.asking(fold))!;
		return { repair, problem: made.asked(repair.settings).problem, first, answers, plan };
	}

	it('fits, keeps what stands, and is as good as what the solver finds anew', () => {
		const { repair, problem, first, answers } = refused();
		const stands = Object.keys(repair.stands);
		const keys = planBPrepared(problem, stands, answers)!;
		expect(keys).toEqual(expect.arrayContaining(stands));
		expect(keys.length).toBe(stands.length + 1);
		expect(keys).not.toContain(first.key);
		const anew = planSeason(problem, { solver, seconds });
		const reached = seasonFigures(problem, bagsOfKeys(problem, keys)).objective;
		expect(reached).toBeCloseTo(anew.figures.objective, 9);
	});

	it('is not used where nothing prepared fits any more, nor for a bag that stands', () => {
		const { problem, answers, plan } = refused();
		const all = plan.bags.map(({ key }) => key);
		expect(planBPrepared(problem, all, refusedOf(answers))).toBeNull();
		expect(planBPrepared(problem, [], [])).toBeNull();
		const closed = { ...problem, rooms: problem.rooms.map((room) => ({ ...room, isClosed: true })) };
		expect(planBPrepared(closed, [], answers)).toBeNull();
	});
});
