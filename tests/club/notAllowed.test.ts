import { expect, test } from 'vitest';
import { notAllowed } from '#club/history/notAllowed.ts';
import { ago, ClubOf, fish } from './clubOf.ts';

test('notAllowed names decisions that were another’s, until they are taken back, and nothing else', () => {
	const club = new ClubOf().line('l').group('g', 'harbour', 'l', fish(2, 3), 100);
	const close = (by: string, daysAgo: number) => {
		const body = { group: 'g', room: 'harbour', reason: '' };
		return club.write(by, { kind: 'group/closed', happened: ago(daysAgo), about: ['g'], body }, daysAgo);
	};
	const ids = [
		close('mill-keeper', 9),
		close('harbour-keeper', 8),
		club.counted('g', 'harbour', fish(2, 2), 7)
	];
	const ask = () => notAllowed(club.state, { ids: [...ids, 'never-heard-of'] }, club.asking('mill-keeper'));
	expect(ask()).toEqual([ids[0]]);
	club.write(
		'mill-keeper',
		{ kind: 'word/withdrawn', happened: ago(1), about: ['g'], corrects: [ids[0]!], body: { reason: '' } },
		1
	);
	expect(ask()).toEqual([]);
});
