import { describe, expect, it } from 'vitest';
import { Fold } from '#records/fold.ts';
import { shuffled } from '#tests/helpers/randomHistory.ts';
import { newClub, type Story, type Telling } from './story.ts';

const tell = (story: Story, by: string, tanks: number, telling: Telling = {}, line: string | null = null) =>
	story.tell(by, 'room/tanksFree', { room: 'r1', line, tanks }, telling);
const now = (story: Story) => story.fold().state.rooms.get('r1')?.tanksFree ?? null;

describe('tanks free for newcomers', () => {
	it('[R47] says how many, who said so and when; nobody has said at first', () => {
		const story = newClub();
		expect(now(story)).toBeNull();
		const entry = tell(story, 'kim', 2, { happened: '2026-02-03' });
		expect(now(story)).toMatchObject({ entry, tanks: 2, by: 'kim', toldBy: null });
		expect(now(story)?.when.text).toBe('2026-02-03');
	});

	it('[R47] two statements: the one about the later time stands, in any order of arrival', () => {
		const story = newClub();
		tell(story, 'kim', 3, { happened: '2026-02-10' });
		tell(story, 'olga', 1, { happened: '2026-02-03', toldBy: 'kim' });
		expect(now(story)?.tanks).toBe(3);
		for (const seed of [1, 2, 3, 4, 5]) {
			const fold = new Fold();
			for (const input of shuffled(story.inputs, seed)) fold.add([input]);
			expect(fold.state.rooms.get('r1')?.tanksFree).toEqual(now(story));
		}
	});

	it('[R47] of two about one day the later told stands', () => {
		const story = newClub();
		tell(story, 'kim', 3, { happened: '2026-02-03' });
		tell(story, 'kim', 0, { happened: '2026-02-03' });
		expect(now(story)?.tanks).toBe(0);
	});

	it('[R47] whoever looks after the line speaks for its swaps; others wait for one tap', () => {
		const story = newClub();
		const other = tell(story, 'cole', 4, {}, 'lA');
		expect(story.fold().view(other)?.verdict.name).toBe('told by');
		expect(now(story)).toBeNull();
		tell(story, 'cora', 2, { toldBy: 'kim' }, 'lA');
		expect(now(story)).toMatchObject({ tanks: 2, toldBy: 'kim' });
		story.tell('kim', 'word/confirmed', { entry: other });
		expect(story.fold().view(other)?.verdict.name).toBe('counts');
	});

	it('[R31] a correction takes its place, and a taking back brings the word before', () => {
		const story = newClub();
		tell(story, 'kim', 1, { happened: '2026-02-01' });
		const wrong = tell(story, 'kim', 5, { happened: '2026-02-03' });
		tell(story, 'kim', 2, { happened: '2026-02-03', corrects: [wrong] });
		expect(now(story)?.tanks).toBe(2);
		const last = tell(story, 'kim', 6);
		story.tell('kim', 'word/withdrawn', { reason: '' }, { corrects: [last] });
		expect(now(story)?.tanks).toBe(2);
	});

	it.each([-1, 1.5, 1000, '2', null])('[R29] %j tanks are not understood', (tanks) => {
		const story = newClub();
		const id = story.tell('kim', 'room/tanksFree', { room: 'r1', line: null, tanks });
		expect(story.fold().view(id)?.verdict.name).toBe('not understood');
	});
});
