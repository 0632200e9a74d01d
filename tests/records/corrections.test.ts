import { describe, expect, it } from 'vitest';
import { Fold } from '#records/fold.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { shuffled, uuid7 } from '#tests/helpers/randomHistory.ts';
import { definition, fishOf, newClub, type Story } from './story.ts';

const groupOf = (story: Story, id = 'g1') => story.fold().state.groups.get(id);
const verdictOf = (story: Story, id: string) => story.fold().view(id)?.verdict.name;

function keptGroup(): Story {
	const story = newClub();
	story.start('kim', 'g1', 'r1', 'lA', fishOf(2, 3, 0));
	return story;
}

/** Both orders of arrival, and all at once, say the same. */
function expectOrderFree(story: Story): void {
	const expected = foldPicture(story.fold());
	for (const seed of [1, 2, 3]) {
		const fold = new Fold();
		for (const input of shuffled(story.inputs, seed)) fold.add([input]);
		expect(foldPicture(fold)).toEqual(expected);
	}
}

describe('corrections', () => {
	it('[R31] [R13] a correction stands for what it corrects, in its place', () => {
		const story = keptGroup();
		const wrong = story.count('kim', 'g1', fishOf(20, 3, 0));
		const day = new Date(story.now).toISOString();
		story.tell('kim', 'group/changed', {
			group: 'g1',
			room: null,
			fish: fishOf(1, 0, 0),
			why: 'died',
			cause: ''
		});
		story.count('kim', 'g1', fishOf(2, 3, 0), { corrects: [wrong], happened: day });
		const group = groupOf(story);
		expect(group?.now.fish).toEqual(fishOf(1, 3, 0));
		expect(group?.counts.map((count) => count.fish)).toEqual([fishOf(2, 3, 0), fishOf(2, 3, 0)]);
		// The history keeps all four.
		expect(group?.entries).toHaveLength(4);
		expect(story.fold().view(wrong)?.correctedBy).toHaveLength(1);
		expectOrderFree(story);
	});

	it('[R36] why an entry corrects another is kept with it and changes nothing', () => {
		const told = (because?: string) => {
			const story = keptGroup();
			const wrong = story.count('kim', 'g1', fishOf(9, 9, 0));
			story.count('kim', 'g1', fishOf(2, 2, 0), { corrects: [wrong], ...(because ? { because } : {}) });
			return story.fold();
		};
		const fold = told('Wrong number');
		const last = [...fold.ids()].at(-1) ?? '';
		expect(fold.entry(last)?.because).toBe('Wrong number');
		expect([...fold.state.groups]).toEqual([...told().state.groups]);
	});

	it('[R13] a corrected name stays behind a later name', () => {
		const story = keptGroup();
		const first = story.tell('kim', 'group/named', { group: 'g1', room: null, name: 'Trio', tank: '' });
		story.tell('kim', 'group/named', { group: 'g1', room: null, name: 'Colony', tank: '' });
		story.tell(
			'kim',
			'group/named',
			{ group: 'g1', room: null, name: 'Trio one', tank: '' },
			{ corrects: [first] }
		);
		expect(groupOf(story)?.name).toBe('Colony');
	});

	it('[R32] two corrections that had not seen each other are both kept: the later shows, both say so', () => {
		const story = keptGroup();
		const wrong = story.count('kim', 'g1', fishOf(9, 9, 0));
		const a = story.count('kim', 'g1', fishOf(2, 3, 0), { corrects: [wrong] });
		const b = story.count('cora', 'g1', fishOf(2, 2, 0), { corrects: [wrong] });
		expect(groupOf(story)?.twoVersions).toEqual([[a, b]]);
		expect(groupOf(story)?.now.base?.entry).toBe(b);
		expectOrderFree(story);
	});

	it('[R32] a third correction that names both settles it', () => {
		const story = keptGroup();
		const wrong = story.count('kim', 'g1', fishOf(9, 9, 0));
		const a = story.count('kim', 'g1', fishOf(2, 3, 0), { corrects: [wrong] });
		const b = story.count('cora', 'g1', fishOf(2, 2, 0), { corrects: [wrong] });
		const c = story.count('kim', 'g1', fishOf(1, 1, 0), { corrects: [a, b] });
		expect(groupOf(story)?.twoVersions).toEqual([]);
		expect(groupOf(story)?.now.base?.entry).toBe(c);
		expectOrderFree(story);
	});

	it('[R32] a third that names only one of them leaves two versions', () => {
		const story = keptGroup();
		const wrong = story.count('kim', 'g1', fishOf(9, 9, 0));
		const a = story.count('kim', 'g1', fishOf(2, 3, 0), { corrects: [wrong] });
		const b = story.count('cora', 'g1', fishOf(2, 2, 0), { corrects: [wrong] });
		const c = story.count('kim', 'g1', fishOf(1, 1, 0), { corrects: [a] });
		expect(groupOf(story)?.twoVersions).toEqual([[b, c]]);
		expect(groupOf(story)?.now.base?.entry).toBe(c);
	});

	it('[R32] versions about different groups: only the later has its effect, all groups say two versions', () => {
		const story = keptGroup();
		for (const group of ['g2', 'g3', 'g4']) story.start('kim', group, 'r1', 'lA', fishOf(1, 1, 0));
		const wrong = story.count('kim', 'g1', fishOf(7, 0, 0));
		const a = story.count('kim', 'g2', fishOf(7, 0, 0), { corrects: [wrong] });
		const onward = story.count('kim', 'g4', fishOf(7, 0, 0), { corrects: [a] });
		const b = story.count('cora', 'g3', fishOf(7, 0, 0), { corrects: [wrong] });
		const fish = ['g1', 'g2', 'g3', 'g4'].map((id) => groupOf(story, id)?.now.fish);
		expect(fish).toEqual([fishOf(2, 3, 0), fishOf(1, 1, 0), fishOf(7, 0, 0), fishOf(1, 1, 0)]);
		for (const id of ['g1', 'g3', 'g4']) expect(groupOf(story, id)?.twoVersions).toEqual([[onward, b]]);
		expectOrderFree(story);
	});

	it('[R31] an entry about the wrong group is corrected to the right one', () => {
		const story = keptGroup();
		story.start('kim', 'g2', 'r1', 'lA', fishOf(1, 1, 0));
		const wrong = story.count('kim', 'g1', fishOf(8, 0, 0));
		story.count('kim', 'g2', fishOf(8, 0, 0), { corrects: [wrong] });
		expect(groupOf(story)?.now.fish).toEqual(fishOf(2, 3, 0));
		expect(groupOf(story, 'g2')?.now.fish).toEqual(fishOf(8, 0, 0));
		expectOrderFree(story);
	});

	it('[R31] only the end of a chain of corrections has an effect', () => {
		const story = keptGroup();
		let last = story.count('kim', 'g1', fishOf(0, 0, 1));
		for (let males = 2; males < 40; males++)
			last = story.count('kim', 'g1', fishOf(males, 0, 0), { corrects: [last] });
		const group = groupOf(story);
		expect(group?.now.fish).toEqual(fishOf(39, 0, 0));
		expect(group?.counts).toHaveLength(2);
		expect(group?.twoVersions).toEqual([]);
		expectOrderFree(story);
	});

	it('[R33] what is taken back has no effect; taking that back brings it to stand again', () => {
		const story = keptGroup();
		const counted = story.count('kim', 'g1', fishOf(9, 9, 0));
		const back = story.tell('kim', 'word/withdrawn', { reason: 'wrong tank' }, { corrects: [counted] });
		expect(groupOf(story)?.now.fish).toEqual(fishOf(2, 3, 0));
		story.tell('kim', 'word/withdrawn', { reason: '' }, { corrects: [back] });
		expect(groupOf(story)?.now.fish).toEqual(fishOf(9, 9, 0));
		expectOrderFree(story);
	});

	it('[R33] taking back a correction brings what it corrected to stand again', () => {
		const story = keptGroup();
		const counted = story.count('kim', 'g1', fishOf(9, 9, 0));
		const correction = story.count('kim', 'g1', fishOf(1, 1, 0), { corrects: [counted] });
		story.tell('kim', 'word/withdrawn', { reason: '' }, { corrects: [correction] });
		expect(groupOf(story)?.now.fish).toEqual(fishOf(9, 9, 0));
	});

	it('[R14] corrections in a circle are not understood, all of them', () => {
		const story = keptGroup();
		const ids = [1, 2, 3].map((i) => uuid7(story.now + i, 900 + i));
		ids.forEach((id, i) => {
			const base = {
				kind: 'group/counted',
				version: 1,
				by: 'kim',
				device: 'd',
				happened: '2026-02-01',
				about: []
			};
			const body = { group: 'g1', room: null, fish: fishOf(i, 0, 0), certainty: 'counted' };
			story.inputs.push({ entry: { ...base, id, body, corrects: [ids[(i + 1) % 3] ?? ''] } });
		});
		const outside = story.count('kim', 'g1', fishOf(4, 0, 0), { corrects: [ids[0] ?? ''] });
		expect(ids.map((id) => verdictOf(story, id))).toEqual(Array(3).fill('not understood'));
		expect(groupOf(story)?.leftOut.filter((id) => ids.includes(id))).toHaveLength(2);
		expect(verdictOf(story, outside)).toBe('counts');
		expect(groupOf(story)?.now.fish).toEqual(fishOf(4, 0, 0));
		expectOrderFree(story);
	});

	it('[R28] a correction of an entry that has not come waits, and changes nothing until then', () => {
		const story = keptGroup();
		const late = newClub();
		late.now = story.now;
		const missing = uuid7(story.now - 1000, 77);
		const correction = story.count('kim', 'g1', fishOf(5, 5, 0), { corrects: [missing] });
		expect(verdictOf(story, correction)).toBe('waiting');
		expect(groupOf(story)?.now.fish).toEqual(fishOf(2, 3, 0));
		const base = {
			kind: 'group/counted',
			version: 1,
			by: 'kim',
			device: 'd',
			happened: '2026-01-02',
			about: []
		};
		const body = { group: 'g1', room: null, fish: fishOf(6, 6, 0), certainty: 'counted' };
		story.inputs.push({ entry: { ...base, id: missing, body } });
		expect(verdictOf(story, correction)).toBe('counts');
		expect(groupOf(story)?.now.fish).toEqual(fishOf(5, 5, 0));
		expectOrderFree(story);
	});

	it('[R34] the author, the member it was told by, and whoever has a part may correct; others are told by', () => {
		const story = keptGroup();
		const told = () => story.count('olga', 'g1', fishOf(1, 1, 1), { toldBy: 'nora' });
		const verdicts = ['olga', 'nora', 'kim', 'cora', 'fay', 'cole'].map((member) => {
			const id = story.tell(member, 'word/withdrawn', { reason: '' }, { corrects: [told()] });
			return verdictOf(story, id);
		});
		expect(verdicts).toEqual(['counts', 'counts', 'counts', 'counts', 'told by', 'told by']);
	});

	it('[R34] nobody corrects what the server wrote', () => {
		const story = newClub();
		const joined = story.inputs[1]?.entry?.id ?? '';
		const back = story.tell('olga', 'word/withdrawn', { reason: '' }, { corrects: [joined] });
		expect(verdictOf(story, back)).toBe('not allowed');
	});

	it('[R34] a correction of a decision needs the right to decide as well', () => {
		const story = newClub();
		const set = story.tell('cora', 'line/described', { line: 'lA', definition });
		const other = story.tell('cole', 'line/described', { line: 'lA', definition }, { corrects: [set] });
		const own = story.tell('dina', 'line/described', { line: 'lA', definition }, { corrects: [set] });
		expect([other, own].map((id) => verdictOf(story, id))).toEqual(['not allowed', 'counts']);
	});

	it('[R12] a correction written by a clock that is behind stands right after what it corrects', () => {
		const story = keptGroup();
		const counted = story.count('kim', 'g1', fishOf(9, 9, 0));
		const after = story.count('kim', 'g1', fishOf(8, 8, 0));
		const correction = story.count('kim', 'g1', fishOf(1, 1, 0), {
			corrects: [counted],
			clock: story.now - 90 * 86_400_000
		});
		const fold = story.fold();
		const inRank = [after, correction, counted].sort((a, b) => (fold.rankOf(a) < fold.rankOf(b) ? -1 : 1));
		expect(inRank).toEqual([counted, correction, after]);
	});
});

describe('disputes', () => {
	function disputed() {
		const story = keptGroup();
		const counted = story.count('kim', 'g1', fishOf(9, 9, 0));
		const doubt = story.tell('nora', 'word/disputed', { entry: counted, reason: 'I saw five' });
		const decide = (by: string, stands: boolean) =>
			story.tell(by, 'word/decided', { dispute: doubt, of: counted, stands, reason: 'looked at it' });
		return { story, counted, doubt, decide };
	}

	it('[R35] a dispute stands beside the entry, which keeps its effect', () => {
		const { story, counted, doubt } = disputed();
		const group = groupOf(story);
		expect(group?.now.fish).toEqual(fishOf(9, 9, 0));
		expect(group?.disputes).toMatchObject([
			{ entry: doubt, of: counted, by: 'nora', reason: 'I saw five', decided: null }
		]);
	});

	it('[R35] an entry that a decision sets aside has no effect; the last decision holds', () => {
		const { story, decide } = disputed();
		decide('cora', false);
		expect(groupOf(story)?.now.fish).toEqual(fishOf(2, 3, 0));
		expect(groupOf(story)?.disputes[0]?.decided?.stands).toBe(false);
		const last = decide('olga', true);
		expect(groupOf(story)?.now.fish).toEqual(fishOf(9, 9, 0));
		expect(groupOf(story)?.disputes[0]?.decided?.entry).toBe(last);
		expectOrderFree(story);
	});

	it('[R35] [R33] a decision or a dispute that is taken back is gone', () => {
		const { story, doubt, decide } = disputed();
		const decision = decide('cora', false);
		const back = story.tell('cora', 'word/withdrawn', { reason: '' }, { corrects: [decision] });
		expect(groupOf(story)?.now.fish).toEqual(fishOf(9, 9, 0));
		expect(groupOf(story)?.disputes[0]?.decided).toBeNull();
		story.tell('cora', 'word/withdrawn', { reason: '' }, { corrects: [back] });
		expect(groupOf(story)?.now.fish).toEqual(fishOf(2, 3, 0));
		story.tell('nora', 'word/withdrawn', { reason: 'I was wrong' }, { corrects: [doubt] });
		expect(groupOf(story)?.disputes).toEqual([]);
		expectOrderFree(story);
	});

	it('[R35] what does not count is named as left out until its writer takes it back', () => {
		const story = keptGroup();
		const told = story.count('nora', 'g1', fishOf(9, 9, 0));
		expect(groupOf(story)?.leftOut).toEqual([told]);
		story.tell('nora', 'word/withdrawn', { reason: '' }, { corrects: [told] });
		expect(groupOf(story)?.leftOut).toEqual([]);
		expectOrderFree(story);
	});
});
