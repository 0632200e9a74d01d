/** `npm run numbers` as those outside use it: a process, JSON in, JSON out. */
import { describe, expect, test } from 'vitest';
import { inbreeding } from '#genetics/individuals/inbreeding.ts';
import { kinship } from '#genetics/individuals/kinship.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { sixAnimals, sixAnimalsRelationship } from '#tests/reference/pedigrees.ts';
import { ask, problemsOf } from './askNumbers.ts';
import { kinshipTolerance } from './builders.ts';
import { population, shuffled } from './pedigrees.ts';

describe('single fish', () => {
	test('inbreeding of six animals, young before parents (Henderson 1976)', async () => {
		const { code, said, answer } = await ask(['inbreeding'], { fish: [...sixAnimals].reverse() });
		expect([code, said]).toEqual([0, '']);
		expect(answer).toEqual({ inbreeding: { 1: 0, 2: 0, 3: 0, 4: 0, 5: 0.125, 6: 0.125 } });
	});

	test('kinship of the pairs, in their order (Henderson 1976)', async () => {
		const pairs = sixAnimalsRelationship.map(([a, b]) => [a, b]);
		const { answer } = await ask(['kinship'], { fish: sixAnimals, pairs });
		sixAnimalsRelationship.forEach(([, , value], k) =>
			expectClose(answer.kinship[k]!, value / 2, kinshipTolerance)
		);
	});

	test('diversity of a pair and its young: 2n/(n + 1) genomes, 2 founders', async () => {
		// Derived for this project: mean kinship of n young of one pair is 1/4 + 1/(4n).
		const young = ['x', 'y', 'z'].map((id) => ({ id, mother: 'm', father: 'f' }));
		const fish = [...young, { id: 'm', mother: null, father: null }, { id: 'f', mother: null, father: null }];
		const { answer } = await ask(['diversity'], { fish, living: ['x', 'y', 'z'] });
		const third = 1 / 3;
		expect(answer).toEqual({
			meanKinship: expect.closeTo(third, 12),
			meanKinshipOf: {
				x: expect.closeTo(third, 12),
				y: expect.closeTo(third, 12),
				z: expect.closeTo(third, 12)
			},
			geneDiversity: expect.closeTo(1 - third, 12),
			founderGenomeEquivalents: expect.closeTo(1.5, 12),
			founderEquivalents: expect.closeTo(2, 12),
			contributions: { m: expect.closeTo(0.5, 12), f: expect.closeTo(0.5, 12) },
			unknownParentContribution: 0
		});
	});

	test('an unknown parent is a founder of its own', async () => {
		const fish = [
			{ id: 'm', mother: null, father: null },
			{ id: 'x', mother: 'm', father: null },
			{ id: 'y', mother: 'm', father: null }
		];
		const { answer } = await ask(['diversity'], { fish, living: ['x', 'y'] });
		// m gave half, two unknown fathers a quarter each: 1 / (1/4 + 1/16 + 1/16).
		expect(answer).toMatchObject({
			founderEquivalents: 1 / 0.375,
			contributions: { m: 0.5 },
			unknownParentContribution: 0.5
		});
	});

	test('ids may be any text', async () => {
		const fish = ['__proto__', 'constructor', ' ', '10', '1', '"', '\u2028é'].map((id) => ({
			id,
			mother: null,
			father: null
		}));
		const { answer } = await ask(['inbreeding'], { fish });
		expect(Object.keys(answer.inbreeding).sort()).toEqual(fish.map(({ id }) => id).sort());
	});

	test('20,000 fish through a pipe, in any order, with 5,000 pairs', async () => {
		const pedigree = population(20_000, 60, 3, 12);
		const F = inbreeding(pedigree);
		const parent = (at: number) => (at < 0 ? null : `fish ${at}`);
		const fish = shuffled(
			F.reduce<{ id: string; mother: string | null; father: string | null }[]>((all, _, i) => {
				const [mother, father] = [parent(pedigree.mother[i]!), parent(pedigree.father[i]!)];
				all.push({ id: `fish ${i}`, mother, father });
				return all;
			}, []),
			13
		);
		const { answer } = await ask(['inbreeding'], { fish });
		const found = answer.inbreeding;
		F.forEach((value, i) => expectClose(found[`fish ${i}`]!, value, kinshipTolerance));

		// Of the oldest 1,500 the whole table is at hand to compare with.
		const old = {
			ids: pedigree.ids.slice(0, 1500),
			mother: pedigree.mother.slice(0, 1500),
			father: pedigree.father.slice(0, 1500)
		};
		const table = kinship(old);
		const places = Array.from(
			{ length: 5_000 },
			(_, k) => [(k * 7919) % 1500, (k * 104_729) % 1500] as const
		);
		const pairs = places.map(([a, b]) => [`fish ${a}`, `fish ${b}`]);
		const { answer: asked } = await ask(['kinship'], { fish, pairs });
		places.forEach(([a, b], k) => expectClose(asked.kinship[k]!, table[a * 1500 + b]!, kinshipTolerance));
	}, 60_000);
});

describe('groups', () => {
	const start = [
		{ founders: 'M', count: 2 },
		{ founders: 'W', count: 4, within: 0 },
		{ spawn: { fathers: 'M', mothers: 'W' }, young: [['b', 6]] }
	];

	test('a colony: Wright 1931, 1/8 (1/Nm + 1/Nf)', async () => {
		const { code, answer } = await ask(['groups'], {
			events: start,
			ask: [{ inbreeding: ['b'] }, { within: ['b'] }, { withSelf: ['b'] }, { between: ['b', 'M'] }]
		});
		expect(code).toBe(0);
		const within = (1 / 2 + 1 / 4) / 8;
		[0, within, 1 / 12 + (5 / 6) * within, 1 / 8].forEach((value, k) =>
			expectClose(answer.answers[k]!, value, kinshipTolerance, `answer ${k}`)
		);
	});

	test('one unknown father or several: .25 against .1825', async () => {
		// Weights .6, .3, .1 of unrelated fathers; derived for this project, agrees with a gene drop.
		const alone = ['s1', 's2', 's3', 'd'].map((founders) => ({ founders, count: 1 }));
		const fathers = [
			['s1', 0.6],
			['s2', 0.3],
			['s3', 0.1]
		];
		const spawn = (father: string, name: string) => ({
			spawn: { fathers, father, mothers: 'd' },
			young: [
				[`${name} males`, 2],
				[`${name} females`, 2]
			]
		});
		const { answer } = await ask(['groups'], {
			events: [
				...alone,
				spawn('one', 'one'),
				spawn('several', 'mixed'),
				{ split: 'x', from: 'one males', count: 1 },
				{ merge: 'all', of: ['one males', 'x', 'one females'] }
			],
			ask: [{ within: ['all'] }, { within: ['mixed males', 'mixed females'] }, { between: ['x', 'd'] }]
		});
		[0.25, 0.1825, 0.25].forEach((value, k) =>
			expectClose(answer.answers[k]!, value, kinshipTolerance, `answer ${k}`)
		);
	});

	test('what does not fit is told, all of it', async () => {
		const side = [['M', 0.5]];
		expect(
			await problemsOf('groups', {
				events: [
					...start,
					{ spawn: { fathers: side, father: 'one', mothers: 'nobody' }, young: [['c', 2]] },
					{ split: 'b', from: 'b', count: 7 }
				],
				ask: []
			})
		).toEqual(
			expect.arrayContaining([
				['weightsNotOne', ['M']],
				['unitUnknown', ['nobody']],
				['notEnoughFish', ['b']],
				['unitTwice', ['b']]
			])
		);
		expect(
			await problemsOf('groups', {
				events: [...start, { merge: 'all', of: ['b', 'M'] }, { split: 'one', from: 'W', count: 1 }],
				ask: [
					{ within: ['one'] },
					{ within: ['b', 'W'] },
					{ inbreeding: [] },
					{ withSelf: ['nobody'] },
					{ inbreeding: ['W', 'W'] }
				]
			})
		).toEqual([
			['notEnoughFish', ['one']],
			['unitEmptied', ['b']],
			['nothingNamed', []],
			['unitUnknown', ['nobody']],
			['unitTwice', ['W', 'W']]
		]);
		expect(
			await problemsOf('groups', {
				events: [{ split: 'x', fro: 'b', count: 1.5 }, { died: 'x' }],
				ask: [{ between: ['x'] }]
			})
		).toEqual([
			['form', []],
			['form', []],
			['unknownKey', ['fro']],
			['form', []],
			['form', []]
		]);
	});
});

describe('bad input', () => {
	const fish = [{ id: 'a', mother: 'a', father: 'nobody' }];
	test.each<[string, unknown, [string, string[]][]]>([
		['inbreeding', '{ "fish": [', [['notJson', []]]],
		['inbreeding', '', [['notJson', []]]],
		['inbreeding', [], [['form', []]]],
		[
			'inbreeding',
			{ fish: [{ id: '', mother: 3, father: null, sire: 'x' }], living: [] },
			[
				['form', []],
				['form', []],
				['unknownKey', ['sire']],
				['unknownKey', ['living']]
			]
		],
		[
			'inbreeding',
			{ fish },
			[
				['parentUnknown', ['nobody']],
				['ownAncestor', ['a']]
			]
		],
		['diversity', { fish: [], living: [] }, [['nobodyLives', []]]],
		[
			'diversity',
			{ fish: [{ id: 'a', mother: null, father: null }], living: ['a', 'a', 'b'] },
			[
				['fishUnknown', ['b']],
				['livingTwice', ['a']]
			]
		],
		[
			'kinship',
			{ fish: [{ id: 'a', mother: null, father: null }], pairs: [['a', 'b'], ['a']] },
			[['form', []]]
		],
		[
			'kinship',
			{
				fish: [{ id: 'a', mother: null, father: null }],
				pairs: [
					['a', 'b'],
					['c', 'b']
				]
			},
			[
				['fishUnknown', ['b']],
				['fishUnknown', ['c']]
			]
		],
		['weather', {}, [['question', []]]]
	])('%s %j', async (question, input, problems) => {
		expect(await problemsOf(question, input)).toEqual(problems);
	});

	test('no question, or two', async () => {
		expect((await ask([], {})).code).toBe(2);
		expect((await ask(['inbreeding', 'kinship'], {})).code).toBe(2);
	});
});
