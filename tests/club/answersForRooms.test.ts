/** What somebody at a desk writes for a keeper: answers told by phone, a room closed for its keeper. */
import { describe, expect, test } from 'vitest';
import { linePage } from '#club/lines/linePage.ts';
import { roomPage } from '#club/rooms/roomPage.ts';
import { saidBy, saidByWords } from '#club/people/saidBy.ts';
import { namesOf } from '#records/names.ts';
import { checkedIn, roomClosed, roomReopened } from '#ui/rooms/roomDrafts.ts';
import { ago, ClubOf, fish } from './clubOf.ts';

const silent = () => new ClubOf().line('l').group('g', 'harbour', 'l', fish(2, 3), 300);
const room = (club: ClubOf, me = 'officer') => roomPage(club.state, { room: 'harbour' }, club.asking(me))!;
const line = (club: ClubOf) => linePage(club.state, { line: 'l' }, club.asking())!;

describe('"still have them?" answered by phone', () => {
	test('confirms the room, under the keeper’s name and through whom', () => {
		const club = silent();
		expect(line(club).rooms[0]).toMatchObject({ word: 'not confirmed' });
		const draft = checkedIn('harbour', 'l', ago(1), 'yes', { toldBy: 'harbour-keeper', breeding: 'yes' });
		const id = club.write('officer', draft);
		expect(club.fold.view(id)?.verdict.name).toBe('counts');
		expect(line(club).rooms[0]).toMatchObject({
			word: 'holds it',
			confirmedName: 'harbour keeper, by phone through Officer',
			breeding: { breeding: 'yes', when: { text: ago(1) } },
			unsureName: ''
		});
		expect(room(club).lines[0]).toMatchObject({
			confirmedName: 'harbour keeper, by phone through Officer',
			mayAnswer: true
		});
	});

	test('by somebody with no part in it, it waits for one tap', () => {
		const club = silent();
		const id = club.write(
			'mill-keeper',
			checkedIn('harbour', 'l', ago(1), 'yes', { toldBy: 'harbour-keeper' })
		);
		expect(club.fold.view(id)?.verdict.name).toBe('told by');
		expect(line(club).rooms[0]).toMatchObject({ word: 'not confirmed' });
		expect(room(club, 'mill-keeper').lines[0]?.mayAnswer).toBe(false);
	});

	test('a name in plain words stands as it was written', () => {
		const names = namesOf(silent().state, null);
		expect(saidByWords(saidBy({ by: 'officer', toldBy: 'her neighbour Jo' }, names))).toBe(
			'her neighbour Jo, by phone through Officer'
		);
	});

	test('"not sure" confirms nothing, and is shown with whose word it is', () => {
		const club = silent();
		club.write('officer', checkedIn('harbour', 'l', ago(1), 'unsure', { toldBy: 'harbour-keeper' }));
		expect(line(club).rooms[0]).toMatchObject({
			word: 'not confirmed',
			unsureName: 'harbour keeper, by phone through Officer'
		});
		expect(room(club).lines[0]?.check).toMatchObject({ has: 'unsure' });
		expect(line(club).answered).toMatchObject({ of: 1, answered: 1 });
		club.counted('g', 'harbour', fish(1, 1), 0);
		expect(line(club).rooms[0]).toMatchObject({ word: 'holds it', unsureName: '' });
	});

	test('"breeding?" is kept until somebody says otherwise; "not said" is no answer', () => {
		const club = silent();
		const say = (breeding: 'yes' | 'no' | 'unknown', days: number) =>
			club.write('harbour-keeper', checkedIn('harbour', 'l', ago(days), 'yes', { breeding }), days);
		say('yes', 30);
		say('unknown', 20);
		expect(line(club).rooms[0]?.breeding?.breeding).toBe('yes');
		say('no', 10);
		expect(line(club).rooms[0]?.breeding?.breeding).toBe('no');
	});
});

describe('a whole room closed by an officer', () => {
	test('counts with the keeper who said so, and is shown under that name', () => {
		const club = silent();
		club.write('officer', roomClosed('harbour', ago(1), 'White spots', 'harbour-keeper'));
		expect(room(club).closed).toMatchObject({
			reason: 'White spots',
			name: 'harbour keeper, by phone through Officer'
		});
		expect(room(club).lines[0]?.groups[0]?.closed).toBe(true);
		club.write('officer', roomReopened('harbour', ago(0), 'harbour-keeper'));
		expect(room(club).closed).toBeNull();
	});

	test('without the keeper’s word it is not allowed', () => {
		const club = silent();
		const id = club.write('officer', roomClosed('harbour', ago(1), ''));
		expect(club.fold.view(id)?.verdict.name).toBe('not allowed');
		expect(room(club).closed).toBeNull();
	});
});
