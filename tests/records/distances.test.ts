import { describe, expect, it } from 'vitest';
import { Fold } from '#records/fold.ts';
import { shuffled } from '#tests/helpers/randomHistory.ts';
import { newClub, type Story } from './story.ts';

const say = (story: Story, by: string, one: string, other: string, far: boolean) =>
	story.tell(by, 'club/distanceSaid', { club: 'c', one, other, far });
const pairs = (fold: Fold) => fold.state.club.far.map(({ one, other }) => `${one}-${other}`);

describe('regions that are far apart', () => {
	it('[R70] are none at first; an officer says so, and anybody else is not heard', () => {
		const story = newClub();
		expect(pairs(story.fold())).toEqual([]);
		say(story, 'cora', 'Coast', 'Hills', true);
		expect(pairs(story.fold())).toEqual([]);
		const id = say(story, 'olga', 'Hills', 'Coast', true);
		expect(story.fold().state.club.far).toMatchObject([
			{ entry: id, by: 'olga', one: 'Coast', other: 'Hills' }
		]);
	});

	it('[R70] two pairs said unseen by each other both stand; the last word on one pair holds', () => {
		const story = newClub();
		story.club('club/memberJoined', { member: 'otto', name: 'otto' });
		story.club('club/roleGiven', { member: 'otto', role: 'officer', of: null });
		say(story, 'olga', 'Coast', 'Hills', true);
		say(story, 'otto', 'Coast', 'Vale', true);
		say(story, 'otto', 'Vale', 'Hills', true);
		say(story, 'olga', 'Hills', 'Vale', false);
		for (const seed of [1, 2, 3, 4, 5]) {
			const fold = new Fold();
			for (const input of shuffled(story.inputs, seed)) fold.add([input]);
			expect(pairs(fold)).toEqual(['Coast-Hills', 'Coast-Vale']);
		}
	});

	it('[R70] a region is not far from itself', () => {
		const story = newClub();
		say(story, 'olga', 'Coast', 'Coast', true);
		expect(pairs(story.fold())).toEqual([]);
	});

	it('[R33] taken back, they are an ordinary drive again', () => {
		const story = newClub();
		const id = say(story, 'olga', 'Coast', 'Hills', true);
		story.tell('olga', 'word/withdrawn', { reason: '' }, { corrects: [id] });
		expect(pairs(story.fold())).toEqual([]);
	});
});
