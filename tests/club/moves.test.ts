/** Fish that go from group to group within a room: moved, split off, put together. */
import { describe, expect, test } from 'vitest';
import { groupPage } from '#club/groups/groupPage.ts';
import { possibleParents } from '#club/spawns/possibleParents.ts';
import { changeWords } from '#ui/groups/changeWords.ts';
import { moveDrafts, type Move } from '#ui/groups/moveDrafts.ts';
import { ago, ClubOf, fish, today } from './clubOf.ts';

const club = () =>
	new ClubOf()
		.line('l', 'guppy')
		.line('other', 'guppy')
		.group('a', 'harbour', 'l', fish(2, 5), 400)
		.group('b', 'harbour', 'l', fish(1, 1), 400)
		.group('elsewhere', 'mill', 'l', fish(1, 1), 400)
		.group('strangers', 'harbour', 'other', fish(1, 1), 400);
const pageOf = (of: ClubOf, group: string) => groupPage(of.state, { group }, of.asking('harbour-keeper'))!;
const plain: Move = {
	happened: ago(1),
	fish: fish(0, 2),
	target: { to: 'group', group: 'b' },
	ends: false,
	quarantine: ''
};
function move(of: ClubOf, how: Partial<Move>): void {
	for (const draft of moveDrafts(pageOf(of, 'a'), { ...plain, ...how })) of.write('harbour-keeper', draft);
}

describe('moving fish between two groups of a room', () => {
	test('only groups of the same line in the room are offered', () => {
		expect(pageOf(club(), 'a').neighbours.map((each) => each.id)).toEqual(['b']);
	});

	test('one loses what the other gains, and both say where', () => {
		const of = club();
		move(of, {});
		expect([pageOf(of, 'a').fish, pageOf(of, 'b').fish]).toEqual([fish(2, 3), fish(1, 3)]);
		expect(changeWords(pageOf(of, 'a').changes[0]!)).toBe('2f fewer, moved to b group');
		expect(changeWords(pageOf(of, 'b').changes[0]!)).toBe('2f more, moved from a group');
	});

	test('split: a group of its own, out of the old one, at the same stage', () => {
		const of = club();
		move(of, { fish: fish(1, 2), target: { to: 'new', group: 'c', name: 'Best ones', tank: 'rack 2' } });
		expect(pageOf(of, 'a').fish).toEqual(fish(1, 3));
		expect(pageOf(of, 'c')).toMatchObject({
			fish: fish(1, 2),
			name: 'Best ones',
			tank: 'rack 2',
			line: { id: 'l' },
			came: 'from a group'
		});
	});

	test('put together: all go over and the old group has ended, its history stays', () => {
		const of = club();
		move(of, { fish: fish(2, 5), ends: true });
		expect(pageOf(of, 'b').fish).toEqual(fish(3, 6));
		expect(pageOf(of, 'a')).toMatchObject({ fish: fish(0, 0), ended: true, belowZero: false });
		expect(pageOf(of, 'b').neighbours).toEqual([]);
	});

	test('fish from quarantine bring it with them', () => {
		const of = club();
		move(of, { quarantine: '2026-07-20' });
		expect(pageOf(of, 'b').quarantine?.reason).toBe('with fish from quarantine');
		expect(pageOf(of, 'b').quarantineUntil).toBeGreaterThan(today);
	});

	test('males of the group that a female came from stay possible fathers', () => {
		const of = club();
		move(of, {});
		const { fathers } = possibleParents(of.state, { room: 'harbour', group: 'b', at: today });
		expect(fathers.map((each) => [each.group, each.standing])).toEqual([
			['b', 'likely'],
			['a', 'possible']
		]);
	});
});
