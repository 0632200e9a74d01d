/** Input of every kind and size for `npm run numbers`: what is odd but right is answered, what is wrong is told. */
import { describe, expect, test } from 'vitest';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { ask, problemsOf } from './askNumbers.ts';
import { kinshipTolerance } from './builders.ts';
import { population, shuffled } from './pedigrees.ts';

const fish = (id: string, mother: string | null = null, father: string | null = null) => ({
	id,
	mother,
	father
});

describe('odd but right', () => {
	test.each<[string, unknown, unknown]>([
		['inbreeding', { fish: [] }, { inbreeding: {} }],
		['kinship', { fish: [], pairs: [] }, { kinship: [] }],
		['groups', { events: [], ask: [] }, { answers: [] }],
		['kinship', { fish: [fish('a')], pairs: [['a', 'a']] }, { kinship: [0.5] }],
		// A fish that is both parents of its young, as some killifish are: F = 1/2 (selfing, from memory).
		['inbreeding', { fish: [fish('b', 'a', 'a'), fish('a')] }, { inbreeding: { a: 0, b: 0.5 } }],
		[
			'diversity',
			{ fish: [fish('x', '__proto__'), fish('__proto__')], living: ['x'] },
			{
				...{ meanKinship: 0.5, meanKinshipOf: { x: 0.5 }, geneDiversity: 0.5, founderGenomeEquivalents: 1 },
				...{ founderEquivalents: 2, unknownParentContribution: 0.5 },
				contributions: JSON.parse('{"__proto__":0.5}') as object
			}
		],
		// By hand: an outside fish gives half; the id null stands for it.
		[
			'groups',
			{
				events: [
					{ founders: 'd', count: 1 },
					{ spawn: { fathers: [[null, 1]], mothers: 'd' }, young: [['y', 2]] }
				],
				ask: [{ within: ['y'] }, { between: ['d', 'y'] }]
			},
			{ answers: [0.25, 0.25] }
		],
		[
			'groups',
			{
				events: [
					{ founders: 'toString', count: 2, within: 0.25 },
					{ split: '\u00fc \ud83d\udc1f', from: 'toString', count: 2 }
				],
				ask: [{ within: ['\u00fc \ud83d\udc1f'] }, { inbreeding: ['toString'] }]
			},
			{ answers: [0.25, 0] }
		]
	])('%s %j', async (question, input, expected) => {
		const { code, said, answer } = await ask([question], input);
		expect([code, said]).toEqual([0, '']);
		expect(JSON.parse(JSON.stringify(answer))).toEqual(expected);
	});

	test('a byte order mark and spaces around are no part of the input', async () => {
		const { answer } = await ask(['inbreeding'], `\uFEFF\n ${JSON.stringify({ fish: [fish('a')] })} \n`);
		expect(answer).toEqual({ inbreeding: { a: 0 } });
	});

	test('100,000 fish of 60 years, in any order', async () => {
		const pedigree = population(100_000, 60, 3, 77);
		const F = inbreeding(pedigree);
		const parent = (at: number) => (at < 0 ? null : `${at}`);
		const records = pedigree.ids.map((id, i) =>
			fish(id, parent(pedigree.mother[i]!), parent(pedigree.father[i]!))
		);
		const { code, answer } = await ask(['inbreeding'], { fish: shuffled(records, 78) });
		expect(code).toBe(0);
		let furthest = 0;
		F.forEach((value, i) => (furthest = Math.max(furthest, Math.abs(answer.inbreeding[i]! - value))));
		expectClose(furthest, 0, kinshipTolerance, 'furthest apart of 100,000');
	}, 120_000);
});

describe('wrong', () => {
	test.each<[string, unknown, [string, string[]][]]>([
		['inbreeding', 'null', [['form', []]]],
		['inbreeding', '{"fish":[],"__proto__":1}', [['unknownKey', ['__proto__']]]],
		['inbreeding', '{"fish":[{"id":"a","mother":null,"father":null,"sex":"m"}]}', [['unknownKey', ['sex']]]],
		['inbreeding', { fish: [{ id: 'a', mother: null }] }, [['form', []]]],
		[
			'inbreeding',
			{ fish: [fish('a'), fish('a'), fish('b', 'b')] },
			[
				['fishTwice', ['a']],
				['ownAncestor', ['b']]
			]
		],
		['inbreeding', { fish: [fish('a', 'constructor')] }, [['parentUnknown', ['constructor']]]],
		[
			'inbreeding',
			{ fish: [fish('a', 'b'), fish('b', 'c'), fish('c', 'a')] },
			[['ownAncestor', ['a', 'b', 'c']]]
		],
		['groups', { events: [{ founders: 'a', count: 0 }], ask: [] }, [['countNotWhole', ['a']]]],
		['groups', { events: [{ founders: 'a', count: 2, within: 1.5 }], ask: [] }, [['notAShare', ['a']]]],
		[
			'groups',
			{
				events: [
					{ founders: 'a', count: 1 },
					{ spawn: { fathers: 'a', mothers: 'a' }, young: [['b', 1]] }
				],
				ask: []
			},
			[
				['notEnoughFish', ['a']],
				['notEnoughFish', ['a']]
			]
		],
		[
			'groups',
			{
				events: [
					{ founders: 'a', count: 2 },
					{ merge: 'b', of: ['a', 'a'] }
				],
				ask: []
			},
			[['candidateTwice', ['a', 'a']]]
		]
	])('%s %j', async (question, input, problems) => {
		expect(await problemsOf(question, input)).toEqual(problems);
	});

	test('100,000 mistakes are all told, and a circle of 100,000 fish is one', async () => {
		const many = Array.from({ length: 100_000 }, (_, i) => ({ id: i, mother: null, father: null }));
		expect((await problemsOf('inbreeding', { fish: many })).length).toBe(100_000);
		const circle = many.map((_, i) => fish(`${i}`, `${(i + 1) % many.length}`));
		const [problem, ...others] = await problemsOf('inbreeding', { fish: circle });
		expect([problem![0], problem![1].length, others]).toEqual(['ownAncestor', 100_000, []]);
	}, 60_000);
});
