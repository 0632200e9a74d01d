import { describe, expect, it } from 'vitest';
import { familyOf } from '#pedigree/family/familyOf.ts';
import { Fold } from '#records/fold.ts';
import { randomHistory } from '#tests/helpers/randomHistory.ts';
import { Club, fish, parents } from './builders.ts';

function club(): Club {
	const made = new Club();
	made.founders('sire', 'harbour', fish(1, 0), 'unrelated');
	made.founders('rival', 'harbour', fish(1, 0), 'unrelated');
	made.founders('dam', 'harbour', fish(0, 1), 'unrelated');
	made.spawn('march', 'harbour', {
		fathers: parents([
			['sire', 'likely'],
			['rival', 'possible']
		]),
		mothers: parents([['dam', 'seen']])
	});
	made.bag('b1', {
		from: 'harbour',
		to: 'mill',
		contents: [{ group: 'march-young', fish: fish(0, 0, 6) }],
		group: 'mill-young'
	});
	made.say(
		'harbour-keeper',
		'group/changed',
		90,
		{ group: 'sire', room: 'harbour', fish: fish(1, 0), why: 'died', cause: '' },
		['sire']
	);
	return made;
}

describe('familyOf: groups and how their fish came about', () => {
	const family = familyOf(club().fold().state, 'cory');
	const group = (id: string) => family.groups.find((one) => one.id === id)!;

	it('symbols, counts, rooms and who is alive', () => {
		expect(group('sire')).toMatchObject({ symbol: 'square', single: true, standing: 'dead', generation: 0 });
		expect(group('dam')).toMatchObject({ symbol: 'circle', single: true, standing: 'living' });
		expect(group('march-young')).toMatchObject({
			...{ symbol: 'diamond', single: false, fish: fish(0, 0, 14), began: fish(0, 0, 20) },
			...{ generation: 1, inbreeding: 0, roomName: 'harbour room', from: 'brood' }
		});
		expect(group('mill-young')).toMatchObject({ fish: fish(0, 0, 6), generation: 1, from: 'bag' });
		expect(family.rooms.map((room) => room.name)).toEqual(['harbour room', 'mill room']);
	});

	it('a spawn names its possible parents with their standing', () => {
		expect(family.spawns).toHaveLength(1);
		expect(family.spawns[0]).toMatchObject({
			brood: 'march-young',
			fathers: { certain: false, derived: false, others: false },
			mothers: { certain: true, of: [{ group: 'dam', standing: 'seen' }] },
			parentsRelated: 0
		});
		expect(family.spawns[0]!.fathers.of.map((one) => one.standing)).toEqual(['likely', 'possible']);
	});

	it('a bag is an edge from the giver’s group to the receiver’s', () => {
		expect(family.moves).toEqual([
			expect.objectContaining({
				...{ kind: 'bag', from: 'march-young', to: 'mill-young', fish: fish(0, 0, 6), certain: true }
			})
		]);
	});

	it('parents that nobody named are those that lived there, and said to be derived', () => {
		const made = new Club();
		made.founders('trio', 'harbour', fish(1, 2), 'unrelated');
		made.spawn('june', 'harbour', {
			...{
				fathers: parents([], true, 'not known' as never),
				mothers: parents([], true, 'not known' as never)
			},
			...{ inGroup: 'trio', at: 60 }
		});
		const [spawn] = familyOf(made.fold().state, 'cory').spawns;
		expect(spawn!.fathers).toMatchObject({ derived: true, of: [{ group: 'trio', standing: 'possible' }] });
		expect(spawn!.mothers).toMatchObject({ derived: true, of: [{ group: 'trio' }] });
	});
});

it('familyOf: any history gives edges between its own nodes, parents first (seeds 1 to 80)', () => {
	let edges = 0;
	for (let seed = 1; seed <= 80; seed++) {
		const fold = new Fold();
		fold.add(randomHistory(seed, 200).inputs);
		for (const line of fold.state.lines.keys()) {
			const family = familyOf(fold.state, line);
			const ids = new Set(family.groups.map((group) => group.id));
			expect(ids.size, `seed ${seed}`).toBe(family.groups.length);
			for (const move of family.moves) {
				edges++;
				expect(ids.has(move.from) && ids.has(move.to), `seed ${seed}`).toBe(true);
			}
			for (const spawn of family.spawns) expect(ids.has(spawn.brood), `seed ${seed}`).toBe(true);
		}
	}
	expect(edges).toBeGreaterThan(20);
});
