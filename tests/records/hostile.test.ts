import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { Fold } from '#records/fold.ts';
import { kinds } from '#records/kinds.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { fishOf, newClub, type Story } from './story.ts';
import { table } from './verdictTable.ts';

/** The picture without the entry itself and without the things that it may be about. */
function pictureWithout(fold: Fold, id: string, things: readonly string[]): unknown {
	const picture = foldPicture(fold) as Record<string, unknown>;
	const kept = Object.entries(picture).map(([part, value]) => {
		if (!Array.isArray(value)) return [part, value];
		return [
			part,
			value.filter((one: unknown) =>
				Array.isArray(one) ? !things.includes(String(one[0])) : (one as { id: string }).id !== id
			)
		];
	});
	return JSON.parse(JSON.stringify(Object.fromEntries(kept)));
}

function scene(): Story {
	const story = newClub();
	story.start('kim', 'g1', 'r1', 'lA', fishOf(2, 3, 0));
	story.start('kit', 'g3', 'r3', 'lB', fishOf(1, 1, 0));
	story.bag('kim', 'b1', { number: '0417K', line: 'lA', fromRoom: 'r1' });
	return story;
}

const bodies: readonly unknown[] = [
	null,
	7,
	'text',
	[],
	{},
	JSON.parse('{"__proto__":{"polluted":true},"group":"g1"}'),
	{ constructor: { prototype: { polluted: true } } },
	{ group: { toString: 'x' }, room: [], fish: null, certainty: {} },
	{ group: 'g1', room: null, fish: { males: Infinity, females: NaN, unsexed: -1 }, certainty: 'counted' },
	{ group: 'g1', room: null, fish: { males: 1e308, females: 0.5, unsexed: '3' }, certainty: 'counted' },
	{ group: 'x'.repeat(1_000_000), room: null },
	{ bags: Array.from({ length: 100_000 }, (_, i) => `b${i}`), meeting: null },
	{ entry: 'x\u0000y', reason: '\ud800' }
];

describe('hostile entries', () => {
	it.each([...kinds.keys()])(
		'[R5] [R29] %s with any body changes nothing outside what its envelope names',
		(kind) => {
			for (const [i, body] of bodies.entries()) {
				const story = scene();
				const before = story.fold();
				const id = story.tell('nora', kind, body, { about: ['g1'] });
				const after = story.fold();
				expect([i, pictureWithout(after, id, ['g1'])]).toEqual([i, pictureWithout(before, id, ['g1'])]);
				expect(after.state.groups.get('g1')?.now).toEqual(before.state.groups.get('g1')?.now);
			}
			expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
		}
	);

	const seed = 7;
	it(`[R5] fields that a kind does not have never reach the state (seed ${seed})`, () => {
		fc.assert(
			fc.property(
				fc.constantFrom(...Object.keys(table)),
				fc.dictionary(fc.string(), fc.json()),
				(kind, extra) => {
					const plain = scene();
					const counted = plain.inputs.at(-1)?.entry?.id ?? '';
					const body = table[kind]?.body({ counted, disputed: counted }) as object;
					const tell = (body: object) => {
						const story = scene();
						story.tell('kim', kind, body);
						return foldPicture(story.fold());
					};
					expect(tell({ ...extra, ...body, marker: 'm' })).toEqual(tell(body));
				}
			),
			{ seed, numRuns: 150 }
		);
	});

	it('[R5] ids that are names of built-in things are ids like any other', () => {
		const story = scene();
		for (const id of ['__proto__', 'constructor', 'toString', 'hasOwnProperty']) {
			story.start('kim', id, 'r1', 'lA', fishOf(1, 0, 0));
			story.bag('kim', id, {
				number: '0418A',
				fromRoom: 'r1',
				contents: [{ group: id, fish: fishOf(1, 0, 0) }]
			});
		}
		const { groups } = story.fold().state;
		expect(groups.get('__proto__')?.now.fish).toEqual(fishOf(0, 0, 0));
		expect(groups.get('constructor')?.id).toBe('constructor');
	});

	it('[R33] a tangle of withdrawals of withdrawals is settled, not walked path by path', () => {
		// 40 layers of two, each taking back both of the layer below: 2^40 paths, 160 links.
		const story = scene();
		let below = [story.count('kim', 'g1', fishOf(9, 9, 0))];
		for (let layer = 0; layer < 40; layer++) {
			const corrects = below;
			below = [1, 2].map(() => story.tell('kim', 'word/withdrawn', { reason: '' }, { corrects }));
		}
		const fold = new Fold();
		for (const input of story.inputs.toReversed()) fold.add([input]);
		expect(foldPicture(fold)).toEqual(foldPicture(story.fold()));
		expect(fold.state.groups.get('g1')?.now.fish).toEqual(fishOf(9, 9, 0));
	});

	it('[R12] a long chain of corrections that arrives backwards is ranked without the stack', () => {
		const story = scene();
		const start = story.now;
		let last = story.count('kim', 'g1', fishOf(9, 9, 0));
		const length = 1500;
		for (let i = 0; i < length; i++) {
			last = story.count('kim', 'g1', fishOf(i % 9, 0, 0), { corrects: [last], clock: start - i });
		}
		const fold = new Fold();
		fold.add(story.inputs.toReversed());
		expect(fold.state.groups.get('g1')?.now.base?.entry).toBe(last);
		expect(fold.rankOf(last).length).toBeLessThan(130);
	});

	it('[R52] a thousand bags with one number stay one question', () => {
		const story = scene();
		for (let i = 0; i < 1000; i++) {
			story.bag('kim', `flood${i}`, { number: '0999Z', fromRoom: 'r1', line: i % 2 ? 'lA' : 'lB' });
		}
		const { bags } = story.fold().state;
		expect(bags.get('flood0')?.numberClash).toHaveLength(20);
		expect(bags.get('b1')?.numberClash).toEqual([]);
	});

	it('[R29] a member who writes what only the server writes gets no role', () => {
		const story = scene();
		const id = story.tell('nora', 'club/roleGiven', {
			member: 'nora',
			role: 'officer',
			of: null,
			askedBy: null
		});
		const fold = story.fold();
		expect(fold.view(id)?.verdict.name).toBe('not allowed');
		expect(fold.state.members.get('nora')?.roles).toEqual([]);
	});

	it('[R26] [R29] a decision about a disputed entry that nobody understands is judged, not stumbled over', () => {
		const story = scene();
		const of = story.tell('kim', 'group/started', { group: 'g9' }, { about: ['g9'] });
		const dispute = story.tell('nora', 'word/disputed', { entry: of, reason: '' });
		const body = { dispute, of, stands: false, reason: '' };
		const decided = ['cora', 'olga'].map((by) => story.tell(by, 'word/decided', body));
		const fold = story.fold();
		expect(decided.map((id) => fold.view(id)?.verdict.name)).toEqual(['not allowed', 'counts']);
	});

	it('[R24] [R45] nobody without a part changes a figure of somebody else’s room', () => {
		const story = scene();
		const before = story.fold().state.groups.get('g1')?.now;
		const fish = fishOf(2, 0, 0);
		story.count('kit', 'g1', fish);
		story.tell('kit', 'group/moved', { from: 'g1', to: 'g3', room: 'r3', fish });
		story.bag('kit', 'theft', { fromRoom: 'r3', contents: [{ group: 'g1', fish }] });
		story.bag('kit', 'grab', {
			to: { to: 'room', room: 'r3' },
			fromRoom: 'r1',
			contents: [{ group: 'g1', fish }]
		});
		story.arrive('kit', 'grab', 'r3', 'g1', fish);
		story.tell('kit', 'word/withdrawn', { reason: '' }, { corrects: [before?.base?.entry ?? ''] });
		const after = story.fold().state.groups.get('g1');
		expect(after?.now).toEqual(before);
		expect(after?.room).toBe('r1');
	});
});
