import { describe, expect, it } from 'vitest';
import { kinds } from '#records/kinds.ts';
import { fishOf, newClub, type Story, type Telling } from './story.ts';

const upgradeNamed = (named: string) => {
	const [kind = '', name = ''] = named.split(' ');
	return kinds.get(kind)?.upgrades?.find((step) => step.name === name);
};
const exchangeOf = (story: Story) => story.fold().state.exchanges.get('x1');
const named = { exchange: 'x1', line: 'lA' };

function proposed(asked: boolean): Story {
	const story = newClub();
	story.start('kim', 'g1', 'r1', 'lA', fishOf(10, 10, 0));
	story.tell('cora', 'exchange/proposed', {
		...named,
		gives: [{ fromRoom: 'r1', group: 'g1', fish: fishOf(1, 1, 0) }],
		toRoom: 'r2',
		meeting: null,
		note: '',
		reason: '',
		asked
	});
	return story;
}

function answer(story: Story, by: string, room: string, word: string, telling: Telling = {}): string {
	const body = { ...named, room, answer: word, until: '', reason: '' };
	return story.tell(by, 'exchange/answered', body, telling);
}

function agreed(): Story {
	const story = proposed(true);
	answer(story, 'kim', 'r1', 'yes');
	answer(story, 'kai', 'r2', 'yes');
	return story;
}

function bag(story: Story, id: string): void {
	story.bag('kim', id, { line: 'lA', fromRoom: 'r1', to: { to: 'room', room: 'r2' }, exchange: 'x1' });
}

describe('exchanges', () => {
	it('[R60] proposed, asked, agreed once every side said yes', () => {
		const story = proposed(false);
		const stages = [exchangeOf(story)?.stage];
		story.tell('kai', 'exchange/asked', named);
		stages.push(exchangeOf(story)?.stage);
		answer(story, 'kim', 'r1', 'yes');
		stages.push(exchangeOf(story)?.stage);
		answer(story, 'kai', 'r2', 'yes');
		stages.push(exchangeOf(story)?.stage);
		expect(stages).toEqual(['proposed', 'asked', 'asked', 'agreed']);
	});

	it('[R60] one no declines, one later puts off, the last answer of a side holds', () => {
		const story = proposed(true);
		answer(story, 'kim', 'r1', 'yes');
		answer(story, 'kai', 'r2', 'later');
		expect(exchangeOf(story)?.stage).toBe('put off');
		answer(story, 'kai', 'r2', 'no');
		expect(exchangeOf(story)?.stage).toBe('declined');
		answer(story, 'kai', 'r2', 'yes');
		expect(exchangeOf(story)?.stage).toBe('agreed');
		expect(exchangeOf(story)?.answers).toHaveLength(2);
		story.tell('kim', 'exchange/calledOff', { ...named, reason: 'ill fish' });
		expect(exchangeOf(story)?.stage).toBe('called off');
	});

	it('[R61] with bags: as far as the bag that is furthest behind', () => {
		const story = agreed();
		const stages: unknown[] = [];
		const note = () => stages.push(exchangeOf(story)?.stage);
		bag(story, 'b1');
		bag(story, 'b2');
		note();
		for (const id of ['b1', 'b2']) {
			story.tell('kai', 'bag/handedOver', { bag: id, fromRoom: null, toRoom: 'r2', meeting: null });
			note();
		}
		for (const id of ['b1', 'b2']) {
			story.arrive('kai', id, 'r2', `g-${id}`, fishOf(1, 1, 0));
			note();
		}
		for (const id of ['b1', 'b2']) {
			story.tell('kai', 'bag/dayCount', { bag: id, room: null, alive: 2, note: '' });
			note();
		}
		const expected = ['bagged', 'bagged', 'handed over', 'handed over', 'arrived', 'arrived', 'settled'];
		expect(stages).toEqual(expected);
	});

	it('[R61] failed only when every bag failed; a bag given back counts as none', () => {
		const story = agreed();
		bag(story, 'b1');
		bag(story, 'b2');
		const fail = (id: string) =>
			story.tell('kim', 'bag/failed', { bag: id, room: null, how: 'lost', note: '' });
		fail('b1');
		expect(exchangeOf(story)?.stage).toBe('bagged');
		fail('b2');
		expect(exchangeOf(story)?.stage).toBe('failed');
		const other = agreed();
		bag(other, 'b1');
		other.tell('kim', 'bag/givenBack', { bag: 'b1', room: null, note: '' });
		expect(exchangeOf(other)?.stage).toBe('agreed');
	});

	it('[R61] two devices, one bag number: one bag of the exchange', () => {
		const story = agreed();
		story.bag('kim', 'b1', { number: '0417K', fromRoom: 'r1', exchange: 'x1' });
		story.bag('kai', 'b2', { number: '0417K', to: { to: 'room', room: 'r2' }, exchange: 'x1' });
		expect(exchangeOf(story)?.bags).toEqual(['b1']);
	});

	it('[R62] an answer through the coordinator says by phone, until somebody of the room confirms or answers', () => {
		const story = proposed(true);
		const phone = answer(story, 'cora', 'r2', 'yes', { toldBy: 'kai' });
		const byPhone = () => exchangeOf(story)?.answers.find((one) => one.room === 'r2')?.byPhone;
		expect(byPhone()).toBe(true);
		const tap = story.tell('kai', 'word/confirmed', { entry: phone });
		expect(byPhone()).toBe(false);
		story.tell('kai', 'word/withdrawn', { reason: '' }, { corrects: [tap] });
		expect(byPhone()).toBe(true);
		answer(story, 'kai', 'r2', 'no');
		expect([byPhone(), exchangeOf(story)?.stage]).toEqual([false, 'declined']);
	});

	it('[R55] [R62] whose side speaks is told anew when keepers come late', () => {
		const story = newClub();
		const added = story.inputs.find(
			(input) =>
				input.entry?.kind === 'club/keeperAdded' && (input.entry.body as { member: string }).member === 'kim'
		);
		story.start('kim', 'g1', 'r1', 'lA', fishOf(10, 10, 0));
		story.bag('cora', 'b1', { line: 'lA', fromRoom: 'r1' });
		story.bag('kim', 'b2', { line: 'lA', fromRoom: 'r1' });
		const fold = story.fold();
		const late = newClub();
		late.inputs.length = 0;
		for (const input of story.inputs) if (input !== added) late.inputs.push(input);
		const lateFold = late.fold();
		lateFold.add(added ? [added] : []);
		expect(lateFold.state.bags.get('b2')).toEqual(fold.state.bags.get('b2'));
		expect(fold.state.bags.get('b2')?.statements[0]?.side).toBe('giver');
		expect(fold.state.bags.get('b1')?.statements[0]?.side).toBe('other');
	});

	it('[R6] [R64] a proposal of an older app crosses nothing, a newer one says with which line', () => {
		const upgrade = upgradeNamed('exchange/proposed addOutcross');
		const story = proposed(true);
		expect(exchangeOf(story)?.outcross).toBeNull();
		const [body] = story.inputs.flatMap(({ entry }) =>
			entry?.kind === 'exchange/proposed' ? [entry.body as Record<string, unknown>] : []
		);
		expect(upgrade?.up(body)).toEqual({ ...body, outcross: null });
		expect(upgrade?.up({ ...body, outcross: 'lB' })).toEqual({ ...body, outcross: 'lB' });
		const told = story.tell(
			'cora',
			'exchange/proposed',
			{ ...body, plan: null, outcross: 'lB' },
			{ version: 3 }
		);
		expect(story.fold().view(told)?.verdict.name).toBe('counts');
		expect(exchangeOf(story)).toMatchObject({ line: 'lA', outcross: 'lB' });
	});

	it('[R6] [R63] a proposal of an older app is part of no plan, a newer one says of which', () => {
		const old = proposed(true);
		expect(exchangeOf(old)?.plan).toBeNull();
		const [body] = old.inputs.flatMap(({ entry }) =>
			entry?.kind === 'exchange/proposed' ? [entry.body as Record<string, unknown>] : []
		);
		const upgrade = upgradeNamed('exchange/proposed addPlan');
		expect(upgrade?.up(body)).toEqual({ ...body, plan: null });
		const plan = { id: 'p1', name: 'Spring', expects: { before: 1250, after: 600 } };
		expect(upgrade?.up({ ...body, plan })).toEqual({ ...body, plan });
		const story = newClub();
		story.start('kim', 'g1', 'r1', 'lA', fishOf(10, 10, 0));
		story.tell('cora', 'exchange/proposed', { ...body, plan }, { version: 2 });
		expect(exchangeOf(story)?.plan).toEqual(plan);
		story.tell('cora', 'exchange/proposed', { ...body, plan: { id: 'p1' } }, { version: 2 });
		expect(exchangeOf(story)?.plan).toEqual(plan);
	});
});
