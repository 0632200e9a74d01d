import { expect, test } from 'vitest';
import { notShared } from '#club/history/notShared.ts';
import { myPart } from '#club/people/myPart.ts';
import type { Audience, Entry } from '#records/entry.ts';
import { uuid7 } from '#tests/helpers/randomHistory.ts';
import { ago, ClubOf, fish, today } from './clubOf.ts';

test('notShared says what each entry says, for whom it is, and whether it will count; newest first', () => {
	const club = new ClubOf().line('l').group('g', 'harbour', 'l', fish(2, 3), 100);
	const counted = club.counted('g', 'harbour', fish(2, 2), 10);
	const body = { group: 'g', room: 'harbour', fish: fish(9, 9), certainty: 'counted' };
	const told = club.write('mill-keeper', { kind: 'group/counted', happened: ago(3), about: ['g'], body }, 3);
	const words: Entry = {
		...{ id: uuid7(today, 1), kind: 'room/privateWords', version: 1, by: 'harbour-keeper', device: 'phone' },
		...{ happened: ago(0), about: ['harbour'], body: { room: 'harbour', words: 'Bent spines', group: 'g' } }
	};
	const audience: Audience = 'room:harbour:harbour-1';
	const rows = notShared(
		club.state,
		{
			ids: [
				{ id: counted, audience: 'club' },
				{ id: told, audience: 'club' },
				{ id: words.id, audience },
				{ id: 'known-with-other-words', audience: 'club' }
			]
		},
		{ ...club.asking('harbour-keeper'), privateEntries: new Map([[audience, new Map([[words.id, words]])]]) }
	);
	expect(rows.map(({ id, only, verdict }) => [id, only, verdict?.name])).toEqual([
		[words.id, 'harbour room', undefined],
		[told, '', 'told by'],
		[counted, '', 'counts']
	]);
	expect(rows[2]?.sentence).toContain('2m 2f');
});

test('myPart: officers by the state, whoever asks', () => {
	const club = new ClubOf();
	expect(myPart(club.state, {}, club.asking('officer'))).toEqual({ officer: true });
	expect(myPart(club.state, {}, club.asking('mill-keeper'))).toEqual({ officer: false });
	expect(myPart(club.state, {}, club.asking('nobody'))).toEqual({ officer: false });
});
