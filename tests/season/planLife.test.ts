import { describe, expect, it } from 'vitest';
import { bagByHand } from '#planning/season/bagByHand.ts';
import { seasonBags } from '#planning/season/possibleBags.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { seasonStops } from '#planning/season/seasonStops.ts';
import { exchangeProposed } from '#records/kinds/exchanges/proposed.ts';
import { bagsById, pairsAfter } from '#season/pairsAfter.ts';
import { planPage } from '#season/planPage.ts';
import { plansList } from '#season/plansList.ts';
import { proposalsOf } from '#season/proposalsOf.ts';
import { repairSettings } from '#season/repairSettings.ts';
import { defaultSettings } from '#season/seasonSettings.ts';
import type { SeasonAsked } from '#season/seasonWords.ts';
import { fish, holdingOf, roomOf, SeasonClub, sourceOf } from './seasonClub.ts';

const moves = [
	['fresh', 'mill'],
	['trio', 'orchard'],
	['colony', 'orchard']
] as const;

function club(): SeasonClub {
	return new SeasonClub()
		.line('blue')
		.group('colony', 'harbour', 'blue', fish(4, 6))
		.group('trio', 'mill', 'blue', fish(4, 6))
		.group('fresh', 'orchard', 'blue', fish(4, 6))
		.meeting();
}
function planned(asked: SeasonAsked, which: readonly (readonly [string, string])[] = moves) {
	const bags = which.map(([group, room]) =>
		bagByHand(asked.problem, {
			gives: [{ source: asked.problem.sources.findIndex(({ id }) => id === group), fish: fish(2, 0) }],
			holding: holdingOf(asked, 'blue', room)
		})
	);
	return { bags, figures: seasonFigures(asked.problem, bags) };
}
/** Sends the plan as its proposals: exchanges x1, x2, x3. */
function sent(made = club(), asked = true): SeasonClub {
	const problem = made.asked({ meeting: 'winter' });
	const plan = planned(problem);
	let count = 0;
	const drafts = proposalsOf(problem, plan, plan.bags, {
		...{ plan: { id: 'p', name: 'Winter swaps' }, meeting: 'winter', asked, happened: '2026-11-24' },
		newId: () => `x${(count += 1)}`
	});
	for (const { kind, body } of drafts) made.say('cora', kind, body as Record<string, unknown>, 2);
	return made;
}
const pageOf = (made: SeasonClub, me = 'cora') => {
	const fold = made.fold();
	return planPage(fold.state, { plan: 'p' }, made.asking(fold, me));
};
function repairOf(made: SeasonClub) {
	const fold = made.fold();
	const from = { ...defaultSettings, meeting: 'winter' };
	return repairSettings(fold.state, { plan: 'p', from }, made.asking(fold, 'cora'))!;
}
const steps = (made: SeasonClub) => pageOf(made)?.rows.map(({ id, step }) => `${id} ${step}`);

describe('a plan as its proposals', () => {
	it('each bag is an exchange that says why and of which plan it is a part', () => {
		const asked = club().asked({ meeting: 'winter' });
		const plan = planned(asked);
		const [draft] = proposalsOf(asked, plan, plan.bags.slice(0, 1), {
			...{ plan: { id: 'p', name: 'Winter swaps' }, meeting: 'winter', asked: true, happened: '2026-11-24' },
			newId: () => 'x1'
		});
		expect(draft?.about).toEqual(['x1', 'blue', 'mill', 'orchard', 'winter']);
		const body = exchangeProposed.schema.parse(draft?.body);
		expect(body).toEqual(draft?.body);
		expect(body.gives).toEqual([{ fromRoom: 'orchard', group: 'fresh', fish: fish(2, 0) }]);
		expect(body.reason).toMatch(
			/^Two males from Orchard room .* Their young: 0\.00\. Next young in Mill room: /
		);
		expect(body.plan).toEqual({ id: 'p', name: 'Winter swaps', expects: { before: 0, after: 0 } });
	});

	it('is listed with how far its bags are', () => {
		const made = sent();
		const fold = made.fold();
		const [row] = plansList(fold.state, {}, made.asking(fold, 'cora'));
		expect(row).toMatchObject({
			...{ id: 'p', name: 'Winter swaps', bags: 3, by: 'cora', isOpen: true, holes: 0, mine: true },
			meeting: { id: 'winter' }
		});
		expect(row?.steps.asked).toBe(3);
		expect(plansList(fold.state, { line: 'gold' }, made.asking(fold))).toEqual([]);
		expect(plansList(fold.state, { meeting: 'winter' }, made.asking(fold)).length).toBe(1);
	});

	it('is not a thing of its own: without its exchanges there is no plan', () => {
		const made = club();
		expect(pageOf(made)).toBeNull();
		made.propose('x', 'blue', 'harbour', 'colony', fish(1, 0), 'mill');
		const fold = made.fold();
		expect(plansList(fold.state, {}, made.asking(fold))).toEqual([]);
	});

	it('both ways between two rooms stand together', () => {
		expect(pageOf(sent())?.rows.map(({ back }) => back)).toEqual(['x2', 'x1', '']);
	});

	it('may be repaired by whoever looks after its lines, not by every keeper', () => {
		const made = sent();
		expect(pageOf(made, 'cora')?.mayRepair).toBe(true);
		expect(pageOf(made, 'mill-keeper')?.mayRepair).toBe(false);
	});
});

describe('planned, asked, agreed, declined, done', () => {
	it('goes by what each side says and what arrives', () => {
		expect(steps(sent(club(), false))).toEqual(['x1 planned', 'x2 planned', 'x3 planned']);
		const made = sent().answer('x1', 'blue', 'orchard', 'yes').answer('x2', 'blue', 'mill', 'no');
		expect(steps(made)).toEqual(['x1 asked', 'x2 declined', 'x3 asked']);
		made.answer('x1', 'blue', 'mill', 'yes');
		expect(steps(made)).toEqual(['x1 agreed', 'x2 declined', 'x3 asked']);
		const bag = {
			bag: 'b',
			number: '',
			line: 'blue',
			fromRoom: 'orchard',
			meeting: null,
			exchange: 'x1',
			note: ''
		};
		const contents = [{ group: 'fresh', fish: fish(2, 0) }];
		made.say('orchard-keeper', 'bag/bagged', { ...bag, contents, to: { to: 'room', room: 'mill' } }, 0.9);
		const arrived = { bag: 'b', room: 'mill', group: 'new', line: 'blue', alive: fish(1, 0), dead: 1 };
		made.say('mill-keeper', 'bag/arrived', { ...arrived, certainty: 'counted', tank: '' }, 0.8);
		expect(steps(made)).toEqual(['x1 done', 'x2 declined', 'x3 asked']);
		const page = pageOf(made);
		expect(page?.rows[0]?.arrived).toEqual(fish(1, 0));
		expect(page?.rooms.find(({ room }) => room === 'mill')).toMatchObject({
			...{ isDone: true, planned: 0, before: 0, now: { expected: 0, least: 0, greatest: 0 } }
		});
		// Nothing has come there yet: no figure that would read as what the plan did.
		expect(page?.rooms.find(({ room }) => room === 'orchard')).toMatchObject({ isDone: false, now: null });
	});

	it('a room is done when something came, not when its only bag was declined', () => {
		const made = sent().answer('x1', 'blue', 'orchard', 'no');
		expect(pageOf(made)?.rooms.map(({ room, isDone }) => [room, isDone])).toEqual([
			['mill', false],
			['orchard', false]
		]);
	});

	it('a no leaves a hole only where the room gets nothing else of the line', () => {
		const made = sent().answer('x2', 'blue', 'mill', 'no');
		expect(pageOf(made)?.rows.map(({ isHole }) => isHole)).toEqual([false, false, false]);
		made.answer('x1', 'blue', 'orchard', 'no');
		expect(pageOf(made)?.rows.map(({ isHole }) => isHole)).toEqual([true, false, false]);
		expect(pageOf(made)?.holes).toBe(1);
	});
});

describe('repair after a no', () => {
	it('locks what stands, with its fish, and rules out what was declined', () => {
		const made = sent().answer('x1', 'blue', 'orchard', 'no');
		made.answer('x2', 'blue', 'mill', 'yes').answer('x2', 'blue', 'orchard', 'yes');
		const { settings, stands } = repairOf(made);
		expect(Object.values(stands).sort()).toEqual(['x2', 'x3']);
		expect(settings.locked).toEqual(Object.keys(stands).sort());
		expect(settings.without).toEqual([]);
		const asked = made.asked(settings, 'cora');
		// The fish of the locked bags are not taken as promised to others.
		expect(sourceOf(asked, 'trio')?.spare).toEqual(fish(2, 3));
		const bags = seasonBags(asked.problem);
		const locked = bags.filter(({ key }) => settings.locked.includes(key));
		expect(locked.length).toBe(2);
		expect(seasonStops(asked.problem, locked)).toEqual([]);
		expect(bags.some(({ key }) => key.startsWith('blue@mill<fresh:'))).toBe(false);
		// The hole can be filled: the harbour's fish may still go to the mill.
		expect(bags.some(({ key }) => key.startsWith('blue@mill<colony:'))).toBe(true);
	});

	it('keeps a bag that was agreed beyond what the group could spare by itself', () => {
		const made = sent();
		made.counts('trio', 'mill', fish(2, 3));
		const { settings } = repairOf(made);
		expect(settings.locked.length).toBe(3);
		expect(sourceOf(made.asked(settings, 'cora'), 'trio')?.spare).toEqual(fish(2, 0));
		expect(sourceOf(made.asked({}, 'cora'), 'trio')).toBeUndefined();
	});

	it('a room that said no to all gives and gets nothing', () => {
		const made = sent().answer('x1', 'blue', 'orchard', 'no').answer('x2', 'blue', 'orchard', 'no');
		expect(repairOf(made).settings.without).toEqual([]);
		made.answer('x3', 'blue', 'orchard', 'no');
		const { settings, stands } = repairOf(made);
		expect(settings.without).toEqual(['orchard']);
		expect(stands).toEqual({});
		expect(roomOf(made.asked(settings, 'cora'), 'orchard')?.isClosed).toBe(true);
	});

	it('there is nothing to repair where there is no plan', () => {
		const made = club();
		const fold = made.fold();
		expect(
			repairSettings(fold.state, { plan: 'q', from: defaultSettings }, made.asking(fold, 'cora'))
		).toBeNull();
	});
});

describe('pairs after the plan', () => {
	it('takes what comes and leaves out what goes', () => {
		const made = club();
		const fold = made.fold();
		const asked = made.asked();
		const bags = bagsById(asked.problem, planned(asked, [['fresh', 'mill']]).bags);
		const [room, ...more] = pairsAfter(fold.state, { bags }, made.asking(fold));
		expect(more).toEqual([]);
		expect(room).toMatchObject({ roomName: 'Mill room', lineName: 'blue guppy', room: 'mill' });
		const males = room!.pairs.flatMap((pair) => [pair.males, ...pair.others.map((one) => one.males)]);
		expect(males.map(({ group, fish: count }) => [group, count]).sort()).toEqual([
			['fresh', 2],
			['trio', 4]
		]);
		const all = bagsById(asked.problem, [
			...planned(asked, [
				['fresh', 'mill'],
				['trio', 'orchard']
			]).bags
		]);
		const after = pairsAfter(fold.state, { bags: all }, made.asking(fold));
		const trio = after
			.find((one) => one.room === 'mill')!
			.pairs.flatMap((pair) => [pair.males, ...pair.others.map((one) => one.males)])
			.find(({ group }) => group === 'trio');
		expect(trio?.fish).toBe(2);
	});
});
