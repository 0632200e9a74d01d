import { describe, expect, it } from 'vitest';
import { Fold } from '#records/fold.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { fishOf, newClub, type Story } from './story.ts';

const bagOf = (story: Story, id = 'b1') => story.fold().state.bags.get(id);
const fishIn = (story: Story, id = 'g1') => story.fold().state.groups.get(id)?.now.fish;
const toR2 = { to: 'room', room: 'r2' };

/** r1 has a group of ten males and ten females of line A. */
function givingRoom(timeZone = 'UTC'): Story {
	const story = newClub(timeZone);
	story.start('kim', 'g1', 'r1', 'lA', fishOf(10, 10, 0));
	return story;
}

const packed = (males: number, females: number) => [{ group: 'g1', fish: fishOf(males, females, 0) }];
const whole = { number: '0417K', line: 'lA', fromRoom: 'r1', to: toR2 };

describe('one bag or two', () => {
	it('[R51] [R53] two devices, one number: one bag under both ids', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', { ...whole, contents: packed(2, 3) });
		story.bag('kai', 'b2', { number: '0417K', to: toR2 });
		const bag = bagOf(story);
		expect(bag?.ids).toEqual(['b1', 'b2']);
		expect(bag?.id).toBe('b1');
		expect(bag?.statements.map((one) => one.side)).toEqual(['giver', 'receiver']);
		expect(bag?.entries).toHaveLength(2);
		expect(bagOf(story, 'b2')).toEqual(bag);
		expect(bag?.differences).toEqual([]);
		expect(fishIn(story)).toEqual(fishOf(8, 7, 0));
	});

	it('[R52] one number that cannot be one bag: each names the other, until a person has spoken', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', whole);
		story.bag('kit', 'b2', { number: '0417K', line: 'lB', fromRoom: 'r3', to: toR2 });
		expect([bagOf(story)?.numberClash, bagOf(story, 'b2')?.numberClash]).toEqual([['b2'], ['b1']]);
		story.tell('kai', 'bag/parted', { bags: ['b1', 'b2'], meeting: null });
		expect([bagOf(story)?.numberClash, bagOf(story, 'b2')?.numberClash]).toEqual([[], []]);
		expect(bagOf(story)?.ids).toEqual(['b1']);
	});

	it('[R52] bags that could be one pair by pair, but not all together, are none of them joined', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', { number: '0417K', line: 'lA', fromRoom: 'r1' });
		story.bag('olga', 'b2', { number: '0417K', to: toR2 });
		story.bag('kit', 'b3', { number: '0417K', line: 'lB', fromRoom: 'r3' });
		expect(bagOf(story)?.ids).toEqual(['b1']);
		expect(bagOf(story, 'b2')?.numberClash).toEqual(['b1', 'b3']);
	});

	it('[R52] a third bag of the number never joins two that a person has parted', () => {
		const story = givingRoom();
		for (const id of ['b1', 'b2']) story.bag('kim', id, whole);
		story.tell('kim', 'bag/parted', { bags: ['b1', 'b2'], meeting: null });
		story.bag('kai', 'b3', { number: '0417K', to: toR2 });
		expect(bagOf(story)?.ids).toEqual(['b1']);
		expect(bagOf(story, 'b3')?.numberClash).toEqual(['b1', 'b2']);
	});

	it('[R50] a person joins bags that no number joins, and the last word on a pair holds', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', { ...whole, number: '0417K' });
		story.bag('kai', 'b2', { number: '', to: toR2 });
		story.tell('kai', 'bag/joined', { bags: ['b1', 'b2'], meeting: null });
		expect(bagOf(story, 'b2')?.ids).toEqual(['b1', 'b2']);
		const parted = story.tell('kim', 'bag/parted', { bags: ['b2', 'b1'], meeting: null });
		expect(bagOf(story, 'b2')?.ids).toEqual(['b2']);
		story.tell('kim', 'word/withdrawn', { reason: '' }, { corrects: [parted] });
		expect(bagOf(story, 'b2')?.ids).toEqual(['b1', 'b2']);
	});

	const orders = [0, 1, 2, 3].flatMap((a) =>
		[0, 1, 2, 3].flatMap((b) => [0, 1, 2, 3].flatMap((c) => [0, 1, 2, 3].map((d) => [a, b, c, d] as const)))
	);
	it.each(orders.filter((order) => new Set(order).size === 4))(
		'[R51] [R54] [R55] four entries of one bag, in order %i %i %i %i',
		(...order) => {
			const story = givingRoom();
			story.bag('kim', 'b1', { ...whole, contents: packed(2, 3) });
			story.bag('kai', 'b2', { number: '0417K', to: toR2 });
			story.arrive('kai', 'b2', 'r2', 'gNew', fishOf(2, 2, 0), 1);
			story.arrive('olga', 'b1', 'r2', 'gOther', fishOf(2, 2, 0), 1);
			const fold = new Fold();
			fold.add(story.inputs.slice(0, -4));
			for (const i of order) fold.add([story.inputs.slice(-4)[i] ?? {}]);
			expect(foldPicture(fold)).toEqual(foldPicture(story.fold()));
			expect(fold.state.bags.get('b2')).toMatchObject({ id: 'b1', stage: 'arrived', differences: [] });
			expect(fold.state.groups.get('gOther')?.id).toBe('gNew');
			expect(fold.state.groups.get('gNew')?.now.fish).toEqual(fishOf(2, 2, 0));
			expect(fold.state.groups.get('g1')?.now.fish).toEqual(fishOf(8, 7, 0));
		}
	);

	it('[R54] one group told of by two bags is one with both their groups, in any order', () => {
		const story = givingRoom();
		for (const id of ['b1', 'b2']) story.bag('kim', id, { line: 'lA', fromRoom: 'r1', to: toR2 });
		story.arrive('kai', 'b1', 'r2', 'gA', fishOf(1, 0, 0));
		story.arrive('kai', 'b1', 'r2', 'gB', fishOf(1, 0, 0));
		story.arrive('kai', 'b2', 'r2', 'gC', fishOf(2, 0, 0));
		story.arrive('kai', 'b2', 'r2', 'gB', fishOf(2, 0, 0));
		const expected = foldPicture(story.fold());
		const backwards = new Fold();
		for (const input of story.inputs.toReversed()) backwards.add([input]);
		expect(foldPicture(backwards)).toEqual(expected);
		for (const id of ['gA', 'gB', 'gC']) expect(story.fold().state.groups.get(id)?.id).toBe('gA');
	});
});

describe('what stands for a bag', () => {
	it('[R45] fish leave at bagged and come back when it is given back, not when it arrived after all', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', { ...whole, contents: packed(2, 3) });
		expect(fishIn(story)).toEqual(fishOf(8, 7, 0));
		story.tell('kim', 'bag/givenBack', { bag: 'b1', room: null, note: '' });
		expect(fishIn(story)).toEqual(fishOf(10, 10, 0));
		expect(bagOf(story)?.stage).toBe('given back');
		story.arrive('kai', 'b1', 'r2', 'gNew', fishOf(2, 3, 0));
		expect(fishIn(story)).toEqual(fishOf(8, 7, 0));
		expect(bagOf(story)?.differences).toEqual(['One says it was given back, another that it arrived.']);
	});

	it('[R45] [R55] the receiver’s word takes no fish from the giver until the giver confirms it', () => {
		const story = givingRoom();
		const id = story.bag('kai', 'b1', { ...whole, contents: packed(2, 3) });
		expect(bagOf(story)?.statements[0]?.side).toBe('receiver');
		expect(fishIn(story)).toEqual(fishOf(10, 10, 0));
		story.tell('kim', 'word/confirmed', { entry: id });
		expect(bagOf(story)?.statements[0]?.side).toBe('giver');
		expect(fishIn(story)).toEqual(fishOf(8, 7, 0));
	});

	it('[R45] a room’s word takes no fish from another room’s group', () => {
		const story = givingRoom();
		story.bag('kit', 'b1', { fromRoom: 'r3', contents: packed(2, 3) });
		expect(fishIn(story)).toEqual(fishOf(10, 10, 0));
	});

	it('[R46] arrived fish are a group of the receiver, 28 days in quarantine', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', { ...whole, contents: packed(2, 3) });
		story.arrive('kai', 'b1', 'r2', 'gNew', fishOf(2, 2, 0), 1);
		const group = story.fold().state.groups.get('gNew');
		expect(group).toMatchObject({ room: 'r2', origin: { from: 'bag', bag: 'b1' } });
		expect(group?.now).toMatchObject({ fish: fishOf(2, 2, 0), certainty: 'counted' });
		// 28 days: common practice, no source.
		expect(group?.quarantine?.untilMs).toBe(story.now + 28 * 86_400_000);
		expect(bagOf(story)?.differences).toEqual([]);
	});

	it('[R46] the last day of a quarantine ends with the day where the club is', () => {
		const story = givingRoom('Pacific/Auckland');
		story.bag('kim', 'b1', { ...whole, contents: packed(2, 3) });
		story.arrive('kai', 'b1', 'r2', 'gNew', fishOf(2, 2, 0), 1);
		const until = '2026-06-30';
		story.tell('kai', 'group/quarantineSet', { group: 'gNew', room: 'r2', until, reason: '' });
		// New Zealand keeps standard time, 12 hours before UTC, in June (IANA time zone database).
		const end = Date.parse('2026-07-01T00:00:00+12:00') - 1;
		expect(story.fold().state.groups.get('gNew')?.quarantine?.untilMs).toBe(end);
	});

	it('[R55] each side’s number stands for its own room; the difference is told and moves no fish', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', { ...whole, contents: packed(2, 3) });
		story.bag('kai', 'b2', { number: '0417K', to: toR2, contents: [{ group: null, fish: fishOf(2, 2, 0) }] });
		story.arrive('kai', 'b2', 'r2', 'gNew', fishOf(2, 2, 0));
		expect(fishIn(story)).toEqual(fishOf(8, 7, 0));
		expect(fishIn(story, 'gNew')).toEqual(fishOf(2, 2, 0));
		expect(bagOf(story)?.contents).toEqual(packed(2, 3));
		expect(bagOf(story)?.differences).toEqual([
			'One says 2m 3f went in, another 2m 2f.',
			'5 went in, 4 came out.'
		]);
	});

	it('[R55] arriving somewhere else than it was for is a difference', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', whole);
		story.arrive('olga', 'b1', 'r3', 'gNew', fishOf(1, 0, 0));
		expect(bagOf(story)?.differences).toEqual(['They do not agree whom it is for.']);
	});

	it('[R56] settled differences stay away until somebody says something new', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', { ...whole, contents: packed(2, 3) });
		story.arrive('kai', 'b1', 'r2', 'gNew', fishOf(2, 2, 0));
		expect(bagOf(story)?.differences).toHaveLength(1);
		story.tell('kai', 'bag/settled', { bag: 'b1', room: null, note: 'one jumped' });
		expect(bagOf(story)?.differences).toEqual([]);
		story.arrive('olga', 'b1', 'r2', 'gNew', fishOf(2, 1, 0));
		expect(bagOf(story)?.differences).toHaveLength(2);
	});

	it('[R57] stages: mentioned, bagged, handed over, arrived, settled', () => {
		const story = givingRoom();
		const stage = () => bagOf(story)?.stage;
		story.tell('olga', 'bag/handedOver', { bag: 'b1', fromRoom: 'r1', toRoom: 'r2', meeting: null });
		expect([stage(), bagOf(story)?.known]).toEqual(['handed over', false]);
		story.bag('kim', 'b1', whole);
		expect([stage(), bagOf(story)?.known]).toEqual(['handed over', true]);
		story.arrive('kai', 'b1', 'r2', 'gNew', fishOf(2, 2, 0));
		expect(stage()).toBe('arrived');
		story.tell('kai', 'bag/dayCount', { bag: 'b1', room: null, alive: 4, note: '' });
		expect(stage()).toBe('settled');
		story.bag('kim', 'b7', { fromRoom: 'r1' });
		expect(bagOf(story, 'b7')?.stage).toBe('bagged');
		story.tell('olga', 'bag/joined', { bags: ['b8', 'b9'], meeting: null });
		expect(bagOf(story, 'b8')?.stage).toBe('mentioned');
	});

	it('[R57] a bag given up as lost that turns up has arrived; one that died after arriving has failed', () => {
		const story = givingRoom();
		story.bag('kim', 'b1', whole);
		story.tell('kim', 'bag/failed', { bag: 'b1', room: null, how: 'lost', note: '' });
		expect(bagOf(story)?.stage).toBe('failed');
		story.arrive('kai', 'b1', 'r2', 'gNew', fishOf(2, 2, 0));
		expect(bagOf(story)?.stage).toBe('arrived');
		story.tell('kai', 'bag/failed', { bag: 'b1', room: null, how: 'died', note: '' });
		expect(bagOf(story)?.stage).toBe('failed');
	});
});
