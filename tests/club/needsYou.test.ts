import { describe, expect, it } from 'vitest';
import { bagPage } from '#club/bags/bagPage.ts';
import { needsYou } from '#club/needs/needsYou.ts';
import { asking, Club, fish } from '#tests/pedigree/builders.ts';

const toMill = { to: 'room', room: 'mill' };
/** What each need is, without its words. */
function needsOf(club: Club, me: string, at: number): string[] {
	const fold = club.fold();
	return needsYou(fold.state, {}, asking(fold, me, at)).map((need) =>
		['sort', 'code']
			.map((name) => (need as unknown as Record<string, string>)[name])
			.concat(need.thing.type, need.thing.id)
			.filter(Boolean)
			.join(' / ')
	);
}
function colony(): Club {
	const club = new Club();
	club.founders('colony', 'harbour', fish(3, 4), 'unrelated');
	return club;
}
const counted = (of = fish(9, 9)) => ({ group: 'colony', room: 'harbour', fish: of, certainty: 'counted' });

describe('needsYou', () => {
	it('own words with no part in it: for the writer as such, for the keeper as one tap, for nobody else', () => {
		const club = colony();
		const entry = club.say('quarry-keeper', 'group/counted', 10, counted(), ['colony']);
		expect(needsOf(club, 'quarry-keeper', 11)).toEqual(['own / told by / group / colony']);
		expect(needsOf(club, 'harbour-keeper', 11)).toEqual(['confirm / group / colony']);
		expect(needsOf(club, 'mill-keeper', 11)).toEqual([]);
		// An officer may tap it, but is not pressed about everybody's rooms.
		expect(needsOf(club, 'officer', 11)).toEqual([]);
		club.say('harbour-keeper', 'word/confirmed', 11, { entry }, ['colony']);
		expect(needsOf(club, 'quarry-keeper', 12)).toEqual([]);
		expect(needsOf(club, 'harbour-keeper', 12)).toEqual([]);
	});

	it('what nobody took up for 90 days is no longer pressed on anybody', () => {
		const club = colony();
		club.say('quarry-keeper', 'group/counted', 10, counted(), ['colony']);
		expect(needsOf(club, 'quarry-keeper', 99)).toHaveLength(1);
		expect(needsOf(club, 'quarry-keeper', 101)).toEqual([]);
	});

	it('a decision that was not mine; one that the server has not numbered only waits for the signal', () => {
		const club = colony();
		const close = { group: 'colony', room: 'harbour', reason: '' };
		club.say('quarry-keeper', 'group/closed', 10, close, ['colony'], true);
		expect(needsOf(club, 'quarry-keeper', 11)).toEqual(['own / not allowed / group / colony']);
		const offline = colony();
		offline.say('harbour-keeper', 'group/closed', 10, close, ['colony'], false);
		expect(needsOf(offline, 'harbour-keeper', 11)).toEqual([]);
	});

	it('from a newer app: for the writer', () => {
		const club = colony();
		club.say('harbour-keeper', 'group/counted', 10, { ...counted(), fish: 'many' }, ['colony']);
		expect(needsOf(club, 'harbour-keeper', 11)).toEqual(['own / not understood / group / colony']);
	});

	it('a doubt: to look at for the keepers of the room, to decide for the officer, nothing for who doubts', () => {
		const club = colony();
		const entry = club.say('harbour-keeper', 'group/counted', 10, counted(), ['colony']);
		const dispute = club.say('quarry-keeper', 'word/disputed', 11, { entry, reason: 'I saw three' }, [
			'colony'
		]);
		expect(needsOf(club, 'harbour-keeper', 12)).toEqual(['doubt / look / group / colony']);
		expect(needsOf(club, 'officer', 12)).toEqual(['doubt / decide / group / colony']);
		expect(needsOf(club, 'quarry-keeper', 12)).toEqual([]);
		const decided = { dispute, of: entry, stands: true, reason: 'counted twice' };
		club.say('officer', 'word/decided', 13, decided, ['colony'], true);
		expect(needsOf(club, 'harbour-keeper', 14)).toEqual([]);
		expect(needsOf(club, 'officer', 14)).toEqual([]);
	});

	it('bags: to settle for both sides, the week’s count for the receiver only', () => {
		const club = colony();
		const said = { number: '0417K', line: 'cory', fromRoom: 'harbour', to: toMill };
		club.bagged('harbour-keeper', 'a', 100, { ...said, contents: [{ group: 'colony', fish: fish(2, 3) }] });
		expect(needsOf(club, 'mill-keeper', 101)).toEqual([]);
		expect(needsOf(club, 'harbour-keeper', 104)).toEqual(['bag / not arrived / bag / a']);
		expect(needsOf(club, 'mill-keeper', 104)).toEqual(['bag / not arrived / bag / a']);
		expect(needsOf(club, 'quarry-keeper', 104)).toEqual([]);
		club.arrived('mill-keeper', 'a', 104, 'mill', fish(2, 2));
		expect(needsOf(club, 'harbour-keeper', 105)).toEqual(['bag / said differently / bag / a']);
		club.say('mill-keeper', 'bag/settled', 105, { bag: 'a', room: 'mill', note: '' }, ['a']);
		expect(needsOf(club, 'mill-keeper', 106)).toEqual([]);
		expect(needsOf(club, 'mill-keeper', 112)).toEqual(['bag / day-7 count / bag / a']);
		expect(needsOf(club, 'harbour-keeper', 112)).toEqual([]);
		expect(needsOf(club, 'mill-keeper', 126)).toEqual([]);
	});

	it('a bag of which nothing counts yet: for the keepers whom the words themselves name', () => {
		const club = colony();
		const said = { number: '0417K', line: 'cory', fromRoom: 'harbour', to: toMill };
		club.bagged('quarry-keeper', 'a', 100, said);
		for (const keeper of ['harbour-keeper', 'mill-keeper'])
			expect(needsOf(club, keeper, 101)).toEqual(['confirm / bag / a']);
		expect(needsOf(club, 'orchard-keeper', 101)).toEqual([]);
		const fold = club.fold();
		const page = (me: string) => bagPage(fold.state, { bag: 'a' }, asking(fold, me, 101))!;
		expect(page('mill-keeper').leftOut[0]).toMatchObject({ mayConfirm: true });
		expect(page('orchard-keeper').leftOut[0]).toMatchObject({ mayConfirm: false });
	});

	it('a runner settles the bags of the own meeting', () => {
		const club = colony();
		club.meeting('spring', '2025-04-11');
		club.server(
			'club/roleGiven',
			{ member: 'quarry-keeper', role: 'runner', of: 'spring', askedBy: null },
			[]
		);
		const said = { number: '0417K', line: 'cory', fromRoom: 'harbour', to: toMill, meeting: 'spring' };
		club.bagged('harbour-keeper', 'a', 100, { ...said, contents: [{ group: 'colony', fish: fish(2, 3) }] });
		expect(needsOf(club, 'quarry-keeper', 104)).toEqual(['bag / not arrived / bag / a']);
	});

	it('exchanges that wait: an answer, then the bag, each from who is asked', () => {
		const club = colony();
		const gives = [{ fromRoom: 'harbour', group: 'colony', fish: fish(1, 1) }];
		club.propose('mill-keeper', 'x', 50, { gives, toRoom: 'mill' });
		club.answer('mill-keeper', 'x', 50, 'mill', 'yes');
		expect(needsOf(club, 'harbour-keeper', 51)).toEqual(['exchange / answer / exchange / x']);
		expect(needsOf(club, 'mill-keeper', 51)).toEqual([]);
		club.answer('harbour-keeper', 'x', 51, 'harbour', 'yes');
		expect(needsOf(club, 'harbour-keeper', 52)).toEqual(['exchange / bag / exchange / x']);
		expect(needsOf(club, 'orchard-keeper', 52)).toEqual([]);
	});

	it('nothing of it comes from private words, whoever asks', () => {
		const club = colony();
		club.say('harbour-keeper', 'room/privateWords', 10, { room: 'harbour', words: 'Bent spines' }, [
			'harbour'
		]);
		const fold = club.fold();
		const told = needsYou(fold.state, {}, asking(fold, 'officer', 11));
		expect(JSON.stringify(told)).not.toContain('Bent spines');
	});
});
