import { expect, it } from 'vitest';
import { meetingPage } from '#club/meetings/meetingPage.ts';
import { meetingsList } from '#club/meetings/meetingsList.ts';
import { asking, Club, fish } from '#tests/pedigree/builders.ts';

function club(): Club {
	const club = new Club();
	club.founders('colony', 'harbour', fish(3, 4), 'unrelated');
	club.meeting('winter', '2025-01-20');
	club.meeting('spring', '2025-04-11');
	club.say('mill-keeper', 'meeting/attending', 90, { meeting: 'spring', room: 'mill', coming: true }, [
		'spring'
	]);
	club.say('harbour-keeper', 'meeting/attending', 90, { meeting: 'spring', room: 'harbour', coming: false }, [
		'spring'
	]);
	club.propose('mill-keeper', 'x', 50, {
		gives: [{ fromRoom: 'harbour', group: 'colony', fish: fish(2, 0) }],
		toRoom: 'mill',
		meeting: 'spring'
	});
	club.bagged('harbour-keeper', 'b', 100.8, {
		number: '0417K',
		line: 'cory',
		fromRoom: 'harbour',
		to: { to: 'open' },
		meeting: 'spring'
	});
	club.server(
		'club/roleGiven',
		{ member: 'quarry-keeper', role: 'runner', of: 'spring', askedBy: 'officer' },
		['quarry-keeper']
	);
	return club;
}

it('meetings to come stand first, those that are over behind', () => {
	const fold = club().fold();
	const list = meetingsList(fold.state, {}, asking(fold, 'mill-keeper', 95));
	expect(list.ahead.map((row) => [row.id, row.mine, row.coming])).toEqual([['spring', true, 1]]);
	expect(list.past.map((row) => row.id)).toEqual(['winter']);
	expect(list.mayPlan).toBe(false);
	expect(meetingsList(fold.state, {}, asking(fold, 'officer', 95)).mayPlan).toBe(true);
});

it('a meeting shows who comes, its bags and its exchanges, and who runs it', () => {
	const fold = club().fold();
	const page = meetingPage(fold.state, { meeting: 'spring' }, asking(fold, 'quarry-keeper', 100.9))!;
	expect(page.attending.map((one) => [one.name, one.coming])).toEqual([
		['mill room', true],
		['harbour room', false]
	]);
	expect(page.bagRows.map((bag) => bag.number)).toEqual(['0417K']);
	expect(page.exchanges.map((one) => [one.id, one.now.word])).toEqual([['x', 'asked']]);
	expect(page.runs).toBe(true);
	expect(page.myRooms).toEqual([{ id: 'quarry', name: 'quarry room', coming: null, entry: '' }]);
	expect(meetingPage(fold.state, { meeting: 'never' }, asking(fold, 'officer', 95))).toBeNull();
});

it('"I am coming" and then not: the last word holds', () => {
	const made = club();
	made.say('mill-keeper', 'meeting/attending', 95, { meeting: 'spring', room: 'mill', coming: false }, [
		'spring'
	]);
	const fold = made.fold();
	expect(meetingsList(fold.state, {}, asking(fold, 'mill-keeper', 96)).ahead[0]).toMatchObject({
		mine: false,
		coming: 0
	});
});
