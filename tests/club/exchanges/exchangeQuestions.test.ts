import { describe, expect, it } from 'vitest';
import { exchangeCandidates } from '#club/exchanges/exchangeCandidates.ts';
import { exchangePage } from '#club/exchanges/exchangePage.ts';
import { exchangesOverview } from '#club/exchanges/exchangesOverview.ts';
import { exchangeStage } from '#club/exchanges/exchangeStage.ts';
import { exchangeStart } from '#club/exchanges/exchangeStart.ts';
import { asking, Club, day, fish, start } from '#tests/pedigree/builders.ts';

function club(): Club {
	const club = new Club();
	club.founders('colony', 'harbour', fish(3, 4), 'unrelated');
	club.founders('pair', 'mill', fish(1, 1), 'one brood');
	club.meeting('spring', '2025-04-11');
	return club;
}
const gives = (males = 2) => [{ fromRoom: 'harbour', group: 'colony', fish: fish(males, 0) }];
const proposed = (more: Record<string, unknown> = {}) => ({
	gives: gives(),
	toRoom: 'mill',
	meeting: 'spring',
	...more
});
function agreed(): Club {
	const made = club();
	made.propose('mill-keeper', 'x', 50, proposed());
	made.answer('harbour-keeper', 'x', 51, 'harbour', 'yes');
	made.answer('officer', 'x', 52, 'mill', 'yes', { toldBy: 'mill-keeper' });
	return made;
}
function stageAt(made: Club, at: number, exchange = 'x') {
	const { state } = made.fold();
	return exchangeStage(state, state.exchanges.get(exchange)!, start + at * day);
}

describe('exchangeStage: states and who moves them', () => {
	it('proposed, asked, agreed: each side’s answer is kept apart, a yes may come by phone', () => {
		const made = club();
		made.propose('mill-keeper', 'x', 50, proposed({ asked: false }));
		expect(stageAt(made, 50.1).word).toBe('proposed');
		made.say('mill-keeper', 'exchange/asked', 50.5, { exchange: 'x', line: 'cory' }, ['x'], true);
		expect(stageAt(made, 50.6).word).toBe('asked');
		made.answer('harbour-keeper', 'x', 51, 'harbour', 'yes');
		expect(stageAt(made, 51.5).word).toBe('asked');
		made.answer('officer', 'x', 52, 'mill', 'yes', { toldBy: 'mill-keeper' });
		expect(stageAt(made, 52.5).word).toBe('agreed');
		const fold = made.fold();
		const page = exchangePage(fold.state, { exchange: 'x' }, asking(fold, 'mill-keeper', 53))!;
		expect(
			page.sides.map((side) => [side.name, side.role, side.answer?.answer, side.answer?.byPhone])
		).toEqual([
			['harbour room', 'gives', 'yes', false],
			['mill room', 'receives', 'yes', true]
		]);
		// The keeper may contradict what was told by phone.
		made.answer('mill-keeper', 'x', 53, 'mill', 'no', { reason: 'tank leaks' });
		expect(stageAt(made, 53.5).word).toBe('declined');
	});

	it('bagged, handed over, arrived, settled follow from the bag', () => {
		const made = agreed();
		const said = {
			number: '0417K',
			line: 'cory',
			fromRoom: 'harbour',
			to: { to: 'room', room: 'mill' },
			exchange: 'x',
			meeting: 'spring'
		};
		made.bagged('harbour-keeper', 'b', 100, { ...said, contents: [{ group: 'colony', fish: fish(2, 0) }] });
		expect(stageAt(made, 100.1).word).toBe('bagged');
		expect(stageAt(made, 102.9).needs).toEqual([]);
		expect(stageAt(made, 103.1).needs).toEqual(['not arrived']);
		made.say(
			'mill-keeper',
			'bag/handedOver',
			100.2,
			{ bag: 'b', fromRoom: 'harbour', toRoom: 'mill', meeting: null },
			['b']
		);
		expect(stageAt(made, 100.5).word).toBe('handed over');
		made.arrived('mill-keeper', 'b', 101, 'mill', fish(2, 0));
		expect(stageAt(made, 102).word).toBe('arrived');
		expect(stageAt(made, 121.9).word).toBe('arrived');
		expect(stageAt(made, 122.1).word).toBe('settled, no report');
		made.say('mill-keeper', 'bag/dayCount', 108, { bag: 'b', room: 'mill', alive: 2, note: '' }, ['b']);
		expect(stageAt(made, 130).word).toBe('settled');
	});

	it('lapses the day after its meeting, unless it was put off to a later day', () => {
		// 11 April 2025 is day 100.
		expect(stageAt(agreed(), 100.99).word).toBe('agreed');
		expect(stageAt(agreed(), 101.01).word).toBe('lapsed');
		const later = club();
		later.propose('mill-keeper', 'x', 50, proposed());
		later.answer('harbour-keeper', 'x', 51, 'harbour', 'later', { until: '2025-06-01' });
		expect(stageAt(later, 110)).toMatchObject({ word: 'put off', until: '2025-06-01', needs: [] });
		expect(stageAt(later, 160).needs).toEqual(['the day has come']);
	});

	it('called off and failed; a meeting called off needs a look', () => {
		const made = agreed();
		made.say('officer', 'meeting/calledOff', 60, { meeting: 'spring' }, ['spring'], true);
		expect(stageAt(made, 61)).toMatchObject({ word: 'agreed', needs: ['meeting called off'] });
		made.say(
			'harbour-keeper',
			'exchange/calledOff',
			62,
			{ exchange: 'x', line: 'cory', reason: 'moving house' },
			['x'],
			true
		);
		expect(stageAt(made, 63)).toMatchObject({ word: 'called off', open: false });
		const lost = agreed();
		const said = { line: 'cory', fromRoom: 'harbour', to: { to: 'room', room: 'mill' }, exchange: 'x' };
		lost.bagged('harbour-keeper', 'b', 90, { ...said, contents: [{ group: 'colony', fish: fish(2, 0) }] });
		lost.say('mill-keeper', 'bag/failed', 91, { bag: 'b', room: 'mill', how: 'died', note: '' }, ['b']);
		expect(stageAt(lost, 92).word).toBe('failed');
	});

	it('fish promised in two open exchanges: both say so, nothing is refused', () => {
		const made = club();
		made.propose('mill-keeper', 'x', 50, proposed());
		made.propose('quarry-keeper', 'y', 50, proposed({ toRoom: 'quarry' }));
		for (const exchange of ['x', 'y'])
			expect(stageAt(made, 51, exchange)).toMatchObject({ word: 'asked', needs: ['promised twice'] });
		// Three males are enough for two and one.
		const enough = club();
		enough.propose('mill-keeper', 'x', 50, proposed());
		enough.propose('quarry-keeper', 'y', 50, proposed({ toRoom: 'quarry', gives: gives(1) }));
		expect(stageAt(enough, 51).needs).toEqual([]);
		// A no frees the fish.
		made.answer('quarry-keeper', 'y', 52, 'quarry', 'no');
		expect(stageAt(made, 53).needs).toEqual([]);
	});
});

describe('exchangesOverview', () => {
	const waits = (made: Club, me: string, at: number) => {
		const fold = made.fold();
		return exchangesOverview(fold.state, {}, asking(fold, me, at)).waitForMe.map((row) => row.waitsForMe);
	};
	it('says what each member is waited for', () => {
		const made = club();
		made.propose('mill-keeper', 'x', 50, proposed());
		expect(waits(made, 'harbour-keeper', 51)).toEqual(['answer']);
		expect(waits(made, 'mill-keeper', 51)).toEqual(['answer']);
		expect(waits(made, 'orchard-keeper', 51)).toEqual([]);
		expect(waits(agreed(), 'harbour-keeper', 53)).toEqual(['bag']);
		made.answer('harbour-keeper', 'x', 52, 'harbour', 'no');
		expect(waits(made, 'mill-keeper', 53)).toEqual(['plan B']);
		const fold = agreed().fold();
		const over = exchangesOverview(fold.state, {}, asking(fold, 'harbour-keeper', 200));
		expect([over.waitForMe.length, over.open.length, over.over.length]).toEqual([0, 0, 1]);
	});
});

describe('exchangeCandidates, exchangeStart', () => {
	it('ranks rooms with words, and leaves out those that said no', () => {
		const made = club();
		made.founders('others', 'orchard', fish(2, 2), 'unrelated');
		const fold = made.fold();
		const ask = (without: string[]) =>
			exchangeCandidates(
				fold.state,
				{ line: 'cory', room: 'mill', without },
				asking(fold, 'mill-keeper', 60)
			)!;
		expect(ask([]).candidates.map((one) => [one.roomName, one.words, one.sameRegion])).toEqual([
			['harbour room', 'not related as far as we know', true],
			['orchard room', 'not related as far as we know', true]
		]);
		expect(ask(['harbour']).candidates.map((one) => one.roomName)).toEqual(['orchard room']);
		expect(ask([]).have).toMatchObject({ words: 'as close as brother and sister' });
		expect(ask([]).meetings.map((one) => one.id)).toEqual(['spring']);
		expect(ask([]).mayPropose).toBe(true);
		expect(
			exchangeCandidates(fold.state, { line: 'never', room: 'mill' }, asking(fold, 'officer', 60))
		).toBeNull();
	});

	it('offers one’s own rooms first, then those that ask, then those that have it', () => {
		const made = club();
		made.say('quarry-keeper', 'line/wanted', 55, { line: 'cory', room: 'quarry', note: '' }, ['cory'], true);
		const fold = made.fold();
		const begun = exchangeStart(fold.state, { line: 'cory' }, asking(fold, 'mill-keeper', 60));
		expect(begun.rooms.map((room) => [room.id, room.why])).toEqual([
			['mill', 'your room, has it now'],
			['quarry', 'asks for it'],
			['harbour', 'has it now'],
			['orchard', 'does not have it']
		]);
		expect(begun.lines[0]).toMatchObject({ id: 'cory', mine: true });
	});
});
