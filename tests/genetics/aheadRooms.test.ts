import { describe, expect, test } from 'vitest';
import { projectRooms } from '#genetics/ahead/projectRooms.ts';
import { projectRoomsByChance } from '#genetics/ahead/projectRoomsByChance.ts';
import { guessedBreeders } from '#genetics/ahead/guessedBreeders.ts';
import type { RoomAhead } from '#genetics/ahead/room.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { founders, kinshipTolerance } from './builders.ts';

/** Rooms of so many unrelated fish each, half of them males. */
function line(rooms: number, breeders: number) {
	const names = Array.from({ length: rooms }, (_, i) => `r${i}`);
	const table = groupKinship(
		names.flatMap((room) => [founders(`${room}m`, breeders / 2), founders(`${room}f`, breeders / 2)])
	);
	const ahead = names.map((room): RoomAhead => {
		const half = breeders / 2;
		return { room, males: [`${room}m`], females: [`${room}f`], fathers: half, mothers: half };
	});
	const ring = names.map((room, i) => ({ from: names[(i + rooms - 1) % rooms]!, to: room, males: 1 }));
	return { table, ahead, ring };
}

describe('rooms that go on by themselves', () => {
	test.each([
		[4, 0.8915],
		[8, 0.6838],
		[12, 0.5398],
		[20, 0.3747]
	])('%i breeders: inbreeding %d after 20 generations', (breeders, expected) => {
		// Closed recursion w' = w + (s - w)/(2Nf), computed apart from this code to four decimals.
		const { table, ahead } = line(6, breeders);
		expectClose(projectRooms(table, ahead, 20).at(-1)!.inbreeding, expected, { abs: 0.00005 });
	});

	test('brother and sister: the published series', () => {
		// Wright 1921, Genetics 6:124; Falconer & Mackay 1996, chapter 5 (from memory).
		const { table, ahead } = line(1, 2);
		const series = [0, 0, 1 / 4, 3 / 8, 1 / 2, 19 / 32, 43 / 64, 47 / 64];
		projectRooms(table, ahead, 7).forEach(({ inbreeding }, t) =>
			expectClose(inbreeding, series[t]!, kinshipTolerance)
		);
	});

	test('gene diversity falls by about 1/(2Ne) a generation', () => {
		// Wright 1931: GD_t = GD_0 (1 - 1/(2Ne))^t for one room; two sexes lag a little behind: within 2 %.
		const { table, ahead } = line(1, 40);
		const course = projectRooms(table, ahead, 30);
		const rate = 1 - (course[30]!.geneDiversity / course[10]!.geneDiversity) ** (1 / 20);
		expectClose(rate, 1 / 80, { rel: 0.02 }, 'loss in each generation');
	});
});

describe('by chance', () => {
	test.each([
		[4, 0.892, 0.0006],
		[8, 0.684, 0.0009]
	])('%i breeders in each of 6 rooms: mean inbreeding %d, simulated apart', (breeders, table20, error) => {
		// Simulation of 400 replicates of 6 rooms apart from this code, given to three decimals.
		const { table, ahead } = line(6, breeders);
		const last = projectRoomsByChance(table, ahead, 20, { random: randomFrom(21), times: 300 }).at(-1)!;
		const allowed = 4 * Math.hypot(last.inbreeding.standardError, error) + 0.0005;
		expectClose(last.inbreeding.mean, table20, { abs: allowed });
		expect(last.inbreeding.low).toBeLessThan(last.inbreeding.mean);
		expect(last.inbreeding.high).toBeGreaterThan(last.inbreeding.mean);
	});

	test.each([
		['alone', false, 3, 2],
		['with a ring of males', true, 2, 3],
		['with numbers that are not whole', true, 1.5, 2.4]
	])('the mean is what is expected, rooms %s', (_name, exchanging, fathers, mothers) => {
		const table = groupKinship(
			['a', 'b', 'c'].flatMap((room) => [
				founders(`${room}m`, 4, { within: 0.25 }),
				founders(`${room}f`, 5, { within: 0.1 })
			])
		);
		const rooms = ['a', 'b', 'c'].map((room) => ({
			room,
			males: [`${room}m`],
			females: [`${room}f`],
			fathers,
			mothers
		}));
		const ring = exchanging
			? ['ab', 'bc', 'ca'].map(([from, to]) => ({ from: from!, to: to!, males: 1 }))
			: [];
		const expected = projectRooms(table, rooms, 6, ring);
		projectRoomsByChance(table, rooms, 6, { random: randomFrom(31), times: 2000 }, ring).forEach((by) => {
			const { inbreeding, geneDiversity } = expected[by.generation]!;
			const f = by.inbreeding.mean - inbreeding;
			expect(Math.abs(f), `F in ${by.generation}`).toBeLessThan(4 * by.inbreeding.standardError + 1e-9);
			const d = by.geneDiversity.mean - geneDiversity;
			expect(Math.abs(d), `GD in ${by.generation}`).toBeLessThan(4 * by.geneDiversity.standardError + 1e-9);
		});
	});
});

test('a ring keeps inbreeding far below that of rooms alone', () => {
	// Simulated apart, 8 rooms of 8: .280 for the ring, .683 alone; a recursion by rooms gives .288.
	const { table, ahead, ring } = line(8, 8);
	const last = projectRooms(table, ahead, 20, ring).at(-1)!;
	expect(last.inbreeding).toBeGreaterThan(0.27);
	expect(last.inbreeding).toBeLessThan(0.3);
});

test('a tank of unknown sexes goes on as well', () => {
	const table = groupKinship([founders('all', 10)]);
	const room = { room: 'a', males: ['all'], females: ['all'], fathers: 2, mothers: 3 };
	const [, first, second] = projectRooms(table, [room], 2);
	// Wright 1931: w = 1/8 (1/Nm + 1/Nf) in the first generation is F in the second.
	expectClose(first!.inbreeding, 0, kinshipTolerance);
	expectClose(second!.inbreeding, (1 / 2 + 1 / 3) / 8, kinshipTolerance);
	const chance = projectRoomsByChance(table, [room], 2, { random: randomFrom(3) });
	expect(chance).toHaveLength(2);
});

test('numbers that do not fit are refused', () => {
	const { table, ahead, ring } = line(2, 4);
	expect(() => projectRooms(table, ahead, 0)).toThrow(RangeError);
	expect(() => projectRooms(table, ahead, 1, [{ ...ring[0]!, males: 3 }])).toThrow(RangeError);
	const many = [{ ...ahead[0]!, fathers: 9 }];
	expect(() => projectRoomsByChance(table, many, 1, { random: randomFrom(1) })).toThrow(RangeError);
	expect(() => projectRoomsByChance(table, ahead, 0, { random: randomFrom(1) })).toThrow(RangeError);
	expect(() => guessedBreeders(0)).toThrow(RangeError);
});
