import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Family, FamilyGroup, FamilyMove, FamilyParents, FamilySpawn } from '#pedigree/family/family.ts';
import { groupHeight, groupWidth, type Drawing } from '#ui/family/drawing.ts';
import { familyGraph } from '#ui/family/familyGraph.ts';
import { layOutFamily } from '#ui/family/layOutFamily.ts';
import { nextGroup } from '#ui/family/nextGroup.ts';
import { relativesOf } from '#ui/family/relativesOf.ts';
import { firstScale, leastScale, sheetFor, wholeScale } from '#ui/family/scales.ts';
import { shortName, shortened } from '#ui/family/shortName.ts';
import { fishShown, groupAloud, numberInside, originOf } from '#ui/family/groupWords.ts';

const fish = (males: number, females: number, unsexed = 0) => ({ males, females, unsexed });
const group = (id: string, more: Partial<FamilyGroup> = {}): FamilyGroup => ({
	...{
		id,
		name: id,
		line: 'cory',
		ofThisLine: true,
		known: true,
		room: 'mill',
		roomName: 'Mill room',
		tank: ''
	},
	...{ symbol: 'diamond', single: false, fish: fish(2, 3), certainty: 'counted', began: fish(2, 3) },
	...{ standing: 'living', closed: false, suspectedMix: false, from: 'founders', source: 'wild', at: null },
	...{ generation: 0, inbreeding: 0 },
	...more
});
const side = (of: FamilyParents['of'], others = false): FamilyParents => ({
	...{ of, others, number: 'one', derived: false },
	certain: of.length === 1 && of[0]?.standing === 'seen' && !others
});
const spawn = (brood: string, fathers: FamilyParents, mothers: FamilyParents, related = 0): FamilySpawn => ({
	...{ id: `spawn-${brood}`, sort: 'spawn', brood, room: 'mill', at: null, fathers, mothers },
	parentsRelated: related
});
const move = (from: string, to: string, more: Partial<FamilyMove> = {}): FamilyMove => ({
	...{ kind: 'bag', from, to, at: Date.UTC(2026, 2, 12, 12), bag: 'b', bagNumber: '0417K', fish: null },
	certain: true,
	...more
});
const family = (groups: FamilyGroup[], spawns: FamilySpawn[] = [], moves: FamilyMove[] = []): Family => ({
	...{ line: 'cory', groups, spawns, moves },
	rooms: [{ id: 'mill', name: 'Mill room' }]
});

const small = family(
	['sire', 'rival', 'dam', 'young', 'bagged', 'stranger'].map((id) => group(id)),
	[
		spawn(
			'young',
			side([
				{ group: 'sire', standing: 'likely' },
				{ group: 'rival', standing: 'possible' },
				{ group: 'stranger', standing: 'ruled out' }
			]),
			side([{ group: 'dam', standing: 'seen' }]),
			0.125
		)
	],
	[move('young', 'bagged')]
);

describe('layOutFamily: where the groups stand and how the lines run', () => {
	const drawing = layOutFamily(small);
	const at = (id: string) => drawing.groups.find((each) => each.id === id)!;

	it('puts parents above their young, and fish that moved on below those they came from', () => {
		for (const parent of ['sire', 'rival', 'dam']) expect(at(parent).y).toBeLessThan(at('young').y);
		expect(at('young').y).toBeLessThan(at('bagged').y);
	});

	it('draws a possible parent dashed, a seen one full, related ones double, one ruled out not at all', () => {
		const lines = drawing.lines.filter((line) => line.kind === 'parent');
		const told = Object.fromEntries(lines.map((line) => [line.from, line.dashed]));
		expect(told).toEqual({ sire: true, rival: true, dam: false });
		expect(lines.every((line) => line.double)).toBe(true);
	});

	it('lets all parents of a brood meet in one point, from which the line to the young starts', () => {
		const mating = drawing.matings[0]!;
		for (const line of drawing.lines.filter((each) => each.kind === 'parent'))
			expect(line.points.at(-1)).toMatchObject({ x: mating.x, y: mating.y });
		const young = drawing.lines.find((line) => line.kind === 'young')!;
		expect(young.points[0]).toMatchObject({ x: mating.x, y: mating.y });
		expect(young.points.at(-1)).toEqual({ x: at('young').x, y: at('young').y - groupHeight / 2 });
	});

	it('dates the arrow of a bag', () => {
		const arrow = drawing.lines.find((line) => line.kind === 'move')!;
		expect(arrow).toMatchObject({ label: 'bag 0417 K, 12 Mar 2026', dashed: false });
		expect(arrow.points.at(-1)!.y).toBeGreaterThan(arrow.points[0]!.y);
	});

	it('tells how far it is', () => {
		const told: [number, number][] = [];
		layOutFamily(small, (placed, all) => told.push([placed, all]));
		expect(told).toEqual([
			[5, 6],
			[6, 6]
		]);
	});

	it('marks a brood of which a parent is not known', () => {
		const open = family(
			[group('dam'), group('young')],
			[spawn('young', side([]), side([{ group: 'dam', standing: 'seen' }]))]
		);
		expect(layOutFamily(open).matings.map((mating) => mating.open)).toEqual([true]);
		expect(drawing.matings.map((mating) => mating.open)).toEqual([false]);
	});

	it('puts groups that nothing joins on shelves, not in one row', () => {
		const many = layOutFamily(family(Array.from({ length: 90 }, (_, i) => group(`g${i}`))));
		expect(new Set(many.groups.map((each) => each.y)).size).toBeGreaterThan(5);
		expect(many.width / many.height).toBeLessThan(3);
	});

	it('any family: every group has a place of its own inside, and no mating line runs through a group', () => {
		const grown = fc
			.array(
				fc.record({ kind: fc.constantFrom('spawn', 'move', 'none'), a: fc.nat(), b: fc.nat(), c: fc.nat() }),
				{
					minLength: 1,
					maxLength: 40
				}
			)
			.map((steps) => {
				const groups = [group('g0'), group('g1')];
				const spawns: FamilySpawn[] = [];
				const moves: FamilyMove[] = [];
				steps.forEach(({ kind, a, b, c }, i) => {
					const pick = (n: number) => groups[n % (i + 2)]!.id;
					groups.push(group(`g${i + 2}`));
					const to = `g${i + 2}`;
					if (kind === 'move') moves.push(move(pick(a), to));
					if (kind !== 'spawn') return;
					const fathers = side([
						{ group: pick(a), standing: 'seen' },
						{ group: pick(c), standing: 'possible' }
					]);
					spawns.push(spawn(to, fathers, side([{ group: pick(b), standing: 'seen' }])));
				});
				return family(groups, spawns, moves);
			});
		fc.assert(
			fc.property(grown, (each) => {
				const made = layOutFamily(each);
				expect(new Set(made.groups.map(({ id }) => id)).size).toBe(each.groups.length);
				expect(overlaps(made)).toEqual([]);
				for (const { x, y } of made.groups) {
					expect(x).toBeGreaterThanOrEqual(groupWidth / 2);
					expect(x).toBeLessThanOrEqual(made.width - groupWidth / 2);
					expect(y).toBeLessThanOrEqual(made.height - groupHeight / 2);
				}
				for (const line of made.lines) {
					if (line.kind !== 'parent') continue;
					const [from, to] = line.points.slice(-2);
					const [left, right] = [Math.min(from!.x, to!.x), Math.max(from!.x, to!.x)];
					const through = made.groups.filter(
						(one) =>
							Math.abs(one.y - to!.y) < groupHeight / 2 &&
							one.x + groupWidth / 2 > left &&
							one.x - groupWidth / 2 < right
					);
					expect(through).toEqual([]);
				}
			}),
			{ numRuns: 40, seed: 3 }
		);
	});
});

function overlaps({ groups }: Drawing): string[] {
	return groups.flatMap((one, i) =>
		groups
			.slice(i + 1)
			.filter(
				(other) => Math.abs(one.x - other.x) < groupWidth - 1 && Math.abs(one.y - other.y) < groupHeight - 1
			)
			.map((other) => `${one.id} ${other.id}`)
	);
}

describe('what is drawn of a family', () => {
	it('relatives of a group: forebears with both parents, young, nobody else', () => {
		const of = (id: string) => relativesOf(small, id).groups.map((each) => each.id);
		expect(of('bagged')).toEqual(['sire', 'rival', 'dam', 'young', 'bagged']);
		expect(of('sire')).toEqual(['sire', 'young', 'bagged']);
		expect(of('stranger')).toEqual(['stranger']);
	});

	it('parts that nothing joins stand apart, the largest first', () => {
		expect(familyGraph(small).map((part) => part.groups.length)).toEqual([5, 1]);
	});

	it('arrow keys lead to the nearest group that way, and nowhere at the edge', () => {
		const groups = [
			{ id: 'a', x: 0, y: 0 },
			{ id: 'b', x: 200, y: 0 },
			{ id: 'c', x: 20, y: 150 },
			{ id: 'd', x: 260, y: 150 }
		];
		const from = (id: string, to: 'up' | 'down' | 'left' | 'right') =>
			nextGroup(
				groups,
				groups.find((each) => each.id === id)!,
				to
			).id;
		expect([from('a', 'right'), from('a', 'down'), from('b', 'down'), from('d', 'left')]).toEqual([
			...['b', 'c', 'd', 'c']
		]);
		expect([from('a', 'up'), from('a', 'left')]).toEqual(['a', 'a']);
	});

	it('the first look is at the whole where it can be read, else at a part in a size that can', () => {
		const phone = { width: 350, height: 380 };
		expect(firstScale({ width: 300, height: 300 }, phone)).toBeCloseTo(350 / 300, 6);
		expect(firstScale({ width: 5000, height: 900 }, phone)).toBe(0.9);
		expect(wholeScale({ width: 5000, height: 900 }, phone)).toBe(leastScale);
		// At a desk a little smaller will do.
		expect(firstScale({ width: 1700, height: 900 }, { width: 1100, height: 620 })).toBeCloseTo(
			1100 / 1700,
			6
		);
		expect(sheetFor({ width: 2000, height: 600 }).held).toBe('wide');
		expect(sheetFor({ width: 600, height: 1200 }).held).toBe('tall');
	});
});

describe('words of the drawing', () => {
	it('leave out the line in its own drawing, and say when a nameless group began', () => {
		const at = new Date(2026, 2, 12).getTime();
		expect(shortName({ name: 'brood of Weir cory', at }, 'Weir cory')).toBe('Brood, Mar 2026');
		expect(shortName({ name: 'Trio 7', at }, 'Weir cory')).toBe('Trio 7');
		expect(shortened('The long shed behind the boathouse', 12)).toBe('The long sh…');
	});

	it('say how many, and what is not known', () => {
		expect(fishShown(group('a'))).toBe('2m 3f');
		expect(fishShown(group('a', { certainty: 'about', fish: fish(0, 0, 40) }))).toBe('about 40?');
		expect(fishShown(group('a', { standing: 'dead' }))).toBe('died');
		expect(fishShown(group('a', { standing: 'gone' }))).toBe('none left');
		expect(fishShown(group('a', { standing: 'not known', certainty: 'not known' }))).toBe('not counted');
		expect(numberInside(group('a'))).toBe('5');
		expect(numberInside(group('a', { single: true, fish: fish(1, 0) }))).toBe('');
	});

	it('name all possible parents and what is only likely', () => {
		const young = small.groups.find((each) => each.id === 'young')!;
		expect(originOf(small, young)).toEqual({
			words: 'Young. Mother: dam. Father: sire (likely) or rival (possible).',
			related: true
		});
		expect(originOf(small, group('bagged')).words).toBe('In bag 0417 K, from young, 12 Mar 2026.');
		expect(groupAloud(small, group('stranger'))).toBe(
			'stranger, Mill room, 2 males, 3 females. First fish: wild.'
		);
	});
});
