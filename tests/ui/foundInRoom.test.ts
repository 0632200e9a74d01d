import { expect, test } from 'vitest';
import { roomPage } from '#club/rooms/roomPage.ts';
import { foundInRoom } from '#ui/rooms/foundInRoom.ts';
import { ago, ClubOf, fish } from '#tests/club/clubOf.ts';

function room() {
	const club = new ClubOf()
		.line('weir')
		.line('ferry')
		.group('a', 'harbour', 'weir', fish(1, 1), 20)
		.group('b', 'harbour', 'weir', fish(1, 1), 20)
		.group('c', 'harbour', 'ferry', fish(1, 1), 20);
	const tanks = { a: 'rack 3, tank 1', b: 'rack 10, tank 3', c: 'São rack 4' };
	for (const [group, tank] of Object.entries(tanks)) {
		const body = { group, room: 'harbour', name: `${group} group`, tank };
		club.write('harbour-keeper', { kind: 'group/named', happened: ago(1), about: [group], body });
	}
	return roomPage(club.state, { room: 'harbour' }, club.asking())!;
}
const found = (search: string) =>
	foundInRoom(room(), search).lines.flatMap((line) => line.groups.map((group) => group.id));

test.each([
	['', ['a', 'b', 'c']],
	['rack 3', ['a']],
	['3 rack', ['a', 'b']],
	['WEIR', ['a', 'b']],
	['sao', ['c']],
	['nothing such', []]
])('foundInRoom(%j)', (search, groups) => expect(found(search).sort()).toEqual(groups));
