/** What one room's sheet says of a plan, before it is sent and after. */
import { describe, expect, it } from 'vitest';
import { bagByHand } from '#planning/season/bagByHand.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { bagsById } from '#season/pairsAfter.ts';
import { planSheets, type PlanSheets } from '#season/planSheets.ts';
import { proposalsOf } from '#season/proposalsOf.ts';
import { dateIn, fish, holdingOf, SeasonClub } from './seasonClub.ts';

const moves = [
	['fresh', 'mill'],
	['colony', 'orchard']
] as const;
function club(): SeasonClub {
	return new SeasonClub()
		.line('blue')
		.group('colony', 'harbour', 'blue', fish(4, 6), { tank: 'rack 2' })
		.group('trio', 'mill', 'blue', fish(4, 6))
		.group('fresh', 'orchard', 'blue', fish(4, 6))
		.meeting();
}
function planned(made: SeasonClub) {
	const asked = made.asked({ meeting: 'winter' });
	const bags = moves.map(([group, room]) =>
		bagByHand(asked.problem, {
			gives: [{ source: asked.problem.sources.findIndex(({ id }) => id === group), fish: fish(2, 0) }],
			holding: holdingOf(asked, 'blue', room)
		})
	);
	return { asked, plan: { bags, figures: seasonFigures(asked.problem, bags) } };
}
function draftSheets(made: SeasonClub, meeting: string | null = 'winter', until = ''): PlanSheets {
	const { asked, plan } = planned(made);
	const fold = made.fold();
	const of = { plan: null, bags: bagsById(asked.problem, plan.bags), meeting, until };
	return planSheets(fold.state, of, made.asking(fold))!;
}
/** Sent as exchanges x1 (orchard to mill) and x2 (harbour to orchard). */
function sent(made = club()): SeasonClub {
	const { asked, plan } = planned(made);
	let count = 0;
	const drafts = proposalsOf(asked, plan, plan.bags, {
		...{ plan: { id: 'p', name: 'Winter swaps' }, meeting: 'winter', asked: true, happened: '2026-11-24' },
		newId: () => `x${(count += 1)}`
	});
	for (const { kind, body } of drafts) made.say('cora', kind, body as Record<string, unknown>, 2);
	return made;
}
function sentSheets(made: SeasonClub, plan = 'p'): PlanSheets | null {
	const fold = made.fold();
	return planSheets(fold.state, { plan, bags: [], meeting: null, until: '' }, made.asking(fold));
}
const sheetOf = (sheets: PlanSheets | null, room: string) => sheets?.sheets.find((one) => one.room === room);

describe('a sheet for each room of a plan', () => {
	it('tells what leaves, out of which tank, to whom, and what comes, for rooms that have a part in it', () => {
		const sheets = draftSheets(club());
		expect(sheets.sheets.map(({ name, gives, takes }) => [name, gives.length, takes.length])).toEqual([
			['Harbour room', 1, 0],
			['Mill room', 0, 1],
			['Orchard room', 1, 1]
		]);
		expect(sheetOf(sheets, 'harbour')).toMatchObject({
			keepers: 'harbour-keeper',
			gives: [
				{
					...{ lineName: 'blue guppy', code: 'BLUE', fish: fish(2, 0), number: '', word: '' },
					groups: [{ name: 'colony tank', tank: 'rack 2', fish: fish(2, 0) }],
					...{ other: 'Orchard room', otherKeepers: 'orchard-keeper' }
				}
			]
		});
		expect(sheetOf(sheets, 'mill')?.takes[0]).toMatchObject({
			...{ other: 'Orchard room', otherKeepers: 'orchard-keeper', fish: fish(2, 0) }
		});
	});

	// Last food 24 to 48 hours before, 28 days apart: common practice, no source.
	it('counts days from the meeting, else from the day that was set, else tells none', () => {
		const sheets = draftSheets(club());
		expect(sheets).toMatchObject({
			...{ name: '', meeting: { name: 'Winter meeting', place: 'Hall' }, day: dateIn(18) },
			...{ lastFood: [dateIn(16), dateIn(17)], apartUntil: dateIn(46) }
		});
		expect(draftSheets(club(), null, '2027-02-28')).toMatchObject({
			...{ meeting: null, day: '2027-02-28', lastFood: ['2027-02-26', '2027-02-27'] },
			apartUntil: '2027-03-28'
		});
		expect(draftSheets(club(), null)).toMatchObject({ day: '', lastFood: null, apartUntil: '' });
	});

	it('who breeds with whom afterwards: without what goes, with what comes, also where fish only leave', () => {
		const sheets = draftSheets(club());
		const malesIn = (room: string) =>
			sheetOf(sheets, room)!
				.breeding.flatMap(({ pairs }) => pairs)
				.flatMap((pair) => [pair.males, ...pair.others.map((one) => one.males)])
				.map(({ group, fish: count }) => `${group} ${count}`)
				.sort();
		expect(malesIn('harbour')).toEqual(['colony 2']);
		expect(malesIn('mill')).toEqual(['fresh 2', 'trio 4']);
		expect(malesIn('orchard')).toEqual(['colony 2', 'fresh 2']);
	});

	it('of a plan that was sent: how far each bag is, its number, and nothing that was declined', () => {
		const made = sent().answer('x1', 'blue', 'orchard', 'no');
		const sheets = sentSheets(made);
		expect(sheets?.name).toBe('Winter swaps');
		expect(sheets?.meeting?.name).toBe('Winter meeting');
		expect(sheetOf(sheets, 'mill')).toBeUndefined();
		expect(sheetOf(sheets, 'orchard')?.gives).toEqual([]);
		expect(sheetOf(sheets, 'harbour')?.gives[0]).toMatchObject({ word: 'asked', number: '' });
		made.answer('x2', 'blue', 'orchard', 'yes').answer('x2', 'blue', 'harbour', 'yes');
		expect(sheetOf(sentSheets(made), 'harbour')?.gives[0]?.word).toBe('agreed');
		const bag = { bag: 'b', number: '0417K', line: 'blue', fromRoom: 'harbour', meeting: null, note: '' };
		const contents = [{ group: 'colony', fish: fish(2, 0) }];
		const to = { to: 'room', room: 'orchard' };
		made.say('harbour-keeper', 'bag/bagged', { ...bag, contents, to, exchange: 'x2' }, 0.9);
		expect(sheetOf(sentSheets(made), 'orchard')?.takes[0]).toMatchObject({
			word: 'bagged',
			number: '0417 K'
		});
	});

	it('there is none of a plan that nobody sent', () => {
		expect(sentSheets(club(), 'q')).toBeNull();
	});

	it('a listed species is told on the sheets of both rooms', () => {
		const made = club();
		const blank = { taxonVerbatim: '', taxonTidy: '', localityVerbatim: '', localityCode: '', source: '' };
		const named = { code: 'BLUE', name: 'blue guppy', kind: 'strain', fishGroup: 'bristlenose' };
		const definition = { ...named, ...blank, movement: 'listed' };
		made.say('officer', 'line/described', { line: 'blue', definition }, 1);
		const sheets = draftSheets(made);
		expect(sheets.sheets.map(({ movements }) => movements)).toEqual([['listed'], ['listed'], ['listed']]);
		// One fish to a bag, double bags for spines: common practice, no source.
		expect(sheetOf(sheets, 'harbour')?.gives[0]?.packing).toMatch(/^One grown fish to a bag/);
	});
});
