import { describe, expect, it } from 'vitest';
import { bagPage } from '#club/bags/bagPage.ts';
import { bagsList } from '#club/bags/bagsList.ts';
import { bagStart } from '#club/bags/bagStart.ts';
import { bagsToday } from '#club/bags/bagsToday.ts';
import { bagsToSettle } from '#club/bags/bagsToSettle.ts';
import { asking, Club, day, fish, start } from '#tests/pedigree/builders.ts';

const toMill = { to: 'room', room: 'mill' };
const fromHarbour = { fromRoom: 'harbour', line: 'cory', to: toMill };

function show(): Club {
	const club = new Club();
	club.founders('colony', 'harbour', fish(4, 4), 'unrelated');
	// One bag on two devices, under two ids: the giver's and the receiver's; the receiver counts one fewer.
	club.bagged('harbour-keeper', 'a', 100, {
		...fromHarbour,
		number: '0417K',
		contents: [{ group: 'colony', fish: fish(2, 3) }]
	});
	club.bagged('mill-keeper', 'b', 100, { number: '0417K', to: toMill });
	club.arrived('mill-keeper', 'b', 101, 'mill', fish(2, 2));
	// A bag that nobody has seen arrive.
	club.bagged('harbour-keeper', 'c', 100, {
		...fromHarbour,
		number: '0418R',
		contents: [{ group: 'colony', fish: fish(1, 0) }]
	});
	return club;
}

describe('bagPage', () => {
	it('finds one bag by its number and by either id, with both sides beside each other', () => {
		const fold = show().fold();
		for (const bag of ['0417K', 'a', 'b']) {
			const page = bagPage(fold.state, { bag }, asking(fold, 'harbour-keeper', 102))!;
			expect(page).toMatchObject({ number: '0417K', stage: 'arrived', fish: fish(2, 3), mine: true });
			expect(page.ids).toEqual(['a', 'b']);
			expect(page.versions.map((said) => [said.who, said.side])).toEqual([
				['harbour-keeper', 'giver'],
				['mill-keeper', 'receiver']
			]);
			expect(page.differences).toEqual(['5 went in, 4 came out.']);
			expect(page.needs).toEqual(['said differently']);
		}
	});

	it('knows nothing of a number that nobody logged', () => {
		const fold = show().fold();
		expect(bagPage(fold.state, { bag: '0999X' }, asking(fold, 'officer', 102))).toBeNull();
	});

	it('a person who looked at the differences settles them, until somebody says something new', () => {
		const club = show();
		club.say('mill-keeper', 'bag/settled', 103, { bag: 'b', room: 'mill', note: 'one jumped at the table' }, [
			'b'
		]);
		const fold = club.fold();
		const page = bagPage(fold.state, { bag: 'a' }, asking(fold, 'mill-keeper', 104))!;
		expect(page.differences).toEqual([]);
		expect(page.settled).toMatchObject({ who: 'mill-keeper', note: 'one jumped at the table' });
	});

	it('two bags with one number that cannot be one stand beside each other', () => {
		const club = show();
		club.line('tetra');
		club.bagged('orchard-keeper', 'd', 100, {
			number: '0417K',
			line: 'tetra',
			fromRoom: 'orchard',
			to: { to: 'room', room: 'quarry' }
		});
		const fold = club.fold();
		const page = bagPage(fold.state, { bag: 'd' }, asking(fold, 'officer', 101))!;
		expect(page.needs).toContain('two bags with one number');
		expect(page.clash.map((other) => other.id).sort()).toEqual(['a', 'b']);
	});

	it('what somebody without a part said waits for one tap of somebody with one', () => {
		const club = show();
		const entry = club.say(
			'quarry-keeper',
			'bag/handedOver',
			100.5,
			{ bag: 'c', fromRoom: null, toRoom: null, meeting: null },
			['c']
		);
		const fold = club.fold();
		const forGiver = bagPage(fold.state, { bag: 'c' }, asking(fold, 'harbour-keeper', 101))!;
		expect(forGiver.stage).toBe('bagged');
		expect(forGiver.leftOut).toMatchObject([{ entry, who: 'quarry-keeper', mayConfirm: true }]);
		expect(bagPage(fold.state, { bag: 'c' }, asking(fold, 'orchard-keeper', 101))!.leftOut[0]).toMatchObject({
			mayConfirm: false
		});
		club.say('harbour-keeper', 'word/confirmed', 101, { entry });
		const after = club.fold();
		expect(bagPage(after.state, { bag: 'c' }, asking(after, 'harbour-keeper', 102))).toMatchObject({
			stage: 'handed over',
			leftOut: []
		});
	});
});

describe('what a bag needs', () => {
	const needsAt = (club: Club, bag: string, at: number, me = 'harbour-keeper') => {
		const fold = club.fold();
		return bagPage(fold.state, { bag }, asking(fold, me, at))!.needs;
	};

	it('a look when it has not arrived after three days (common practice, no source)', () => {
		expect(needsAt(show(), 'c', 102.9)).toEqual([]);
		expect(needsAt(show(), 'c', 103.1)).toEqual(['not arrived']);
	});

	it('nothing more from a guest, who cannot report', () => {
		const club = new Club();
		club.founders('colony', 'harbour', fish(4, 4), 'unrelated');
		const contents = [{ group: 'colony', fish: fish(1, 0) }];
		club.bagged('harbour-keeper', 'g', 100, {
			...fromHarbour,
			number: '0420T',
			to: { to: 'guest', name: 'Ida' },
			contents
		});
		expect(needsAt(club, 'g', 150)).toEqual([]);
	});

	it('a day-7 count from day 7 to day 21, then it is settled without a report', () => {
		const club = new Club();
		club.founders('colony', 'harbour', fish(4, 4), 'unrelated');
		club.bagged('harbour-keeper', 'e', 100, {
			...fromHarbour,
			number: '0419Y',
			contents: [{ group: 'colony', fish: fish(1, 1) }]
		});
		club.arrived('mill-keeper', 'e', 100.1, 'mill', fish(1, 1));
		expect(needsAt(club, 'e', 106)).toEqual([]);
		expect(needsAt(club, 'e', 108)).toEqual(['day-7 count']);
		expect(needsAt(club, 'e', 122)).toEqual([]);
		const fold = club.fold();
		expect(bagPage(fold.state, { bag: 'e' }, asking(fold, 'officer', 122))!.stage).toBe('settled, no report');
		club.say('mill-keeper', 'bag/dayCount', 108, { bag: 'e', room: 'mill', alive: 2, note: '' }, ['e']);
		const counted = club.fold();
		expect(bagPage(counted.state, { bag: 'e' }, asking(counted, 'officer', 122))!.stage).toBe('settled');
	});

	it('number and receiver are enough to begin with; the rest may follow', () => {
		const club = new Club();
		club.founders('colony', 'harbour', fish(4, 4), 'unrelated');
		club.bagged('mill-keeper', 'f', 100, { number: '0421L', to: toMill });
		expect(needsAt(club, 'f', 101)).toEqual(['rest not filled in']);
		club.bagged('harbour-keeper', 'f', 101, {
			...fromHarbour,
			contents: [{ group: 'colony', fish: fish(0, 2) }]
		});
		expect(needsAt(club, 'f', 102)).toEqual([]);
	});
});

describe('bagsToSettle, bagsToday, bagsList', () => {
	it('counts the bags of a day and those that people have to look at', () => {
		const fold = show().fold();
		const yesterday = { from: start + 100 * day, to: start + 101 * day };
		expect(bagsToSettle(fold.state, yesterday, asking(fold, 'officer', 101.5)).words).toBe(
			'2 bags, 1 to settle'
		);
		expect(bagsToSettle(fold.state, yesterday, asking(fold, 'officer', 105)).words).toBe(
			'2 bags, 2 to settle'
		);
		const before = { from: start, to: start + day };
		expect(bagsToSettle(fold.state, before, asking(fold, 'officer', 105)).words).toBe('no bags');
	});

	it('shows the bags of today, newest first, and each bag once', () => {
		const fold = show().fold();
		const today = bagsToday(fold.state, { since: start + 100 * day }, asking(fold, 'officer', 101.5));
		expect(today.map((row) => row.number)).toEqual(['0417K', '0418R']);
		expect(
			bagsToday(fold.state, { since: start + 101 * day }, asking(fold, 'officer', 101.5)).map(
				(row) => row.number
			)
		).toEqual(['0417K']);
	});

	it('puts what needs somebody first, one’s own before others’', () => {
		const fold = show().fold();
		const list = bagsList(fold.state, {}, asking(fold, 'quarry-keeper', 105));
		expect(list.all).toBe(2);
		expect(list.needed.map((row) => row.number)).toEqual(['0417K', '0418R']);
		expect(list.others).toEqual([]);
	});
});

describe('bagStart', () => {
	it('puts the agreed exchange first, then rooms that come today, ask, or had bags before', () => {
		const club = new Club();
		club.founders('colony', 'harbour', fish(4, 4), 'unrelated');
		club.meeting('spring', '2025-04-11');
		club.say('quarry-keeper', 'meeting/attending', 90, { meeting: 'spring', room: 'quarry', coming: true }, [
			'spring'
		]);
		const gives = [{ fromRoom: 'harbour', group: 'colony', fish: fish(2, 0) }];
		club.propose('harbour-keeper', 'x', 80, { gives, toRoom: 'orchard', meeting: 'spring' });
		club.answer('harbour-keeper', 'x', 81, 'harbour', 'yes');
		club.answer('orchard-keeper', 'x', 82, 'orchard', 'yes');
		const fold = club.fold();
		const begun = bagStart(fold.state, { number: '' }, asking(fold, 'harbour-keeper', 100.5));
		expect(begun.meeting).toMatchObject({ id: 'spring' });
		expect(begun.receivers.map((one) => [one.room, one.why])).toEqual([
			['orchard', 'agreed: 2m of cory line'],
			['quarry', 'comes today'],
			['mill', '']
		]);
		expect(begun.receivers[0]).toMatchObject({ exchange: 'x', line: 'cory' });
		expect(begun.groups.map((group) => group.id)).toEqual(['colony']);
		expect(bagStart(fold.state, { number: '' }, asking(fold, 'harbour-keeper', 102)).meeting).toBeNull();
	});

	it('says so when the number is logged already', () => {
		const fold = show().fold();
		const begun = bagStart(fold.state, { number: '0417K' }, asking(fold, 'mill-keeper', 102));
		expect(begun.already).toEqual({ id: 'a', words: 'cory line from harbour room', to: 'mill room' });
	});
});
