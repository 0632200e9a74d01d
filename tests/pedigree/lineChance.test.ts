import { describe, expect, it } from 'vitest';
import { projectRooms } from '#genetics/ahead/projectRooms.ts';
import { projectRoomsByChance } from '#genetics/ahead/projectRoomsByChance.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { aheadByChance } from '#pedigree/figures/aheadByChance.ts';
import { aheadOf } from '#pedigree/figures/aheadOf.ts';
import { genesByChance } from '#pedigree/figures/genesByChance.ts';
import { roomsAhead } from '#pedigree/figures/roomsAhead.ts';
import { KinshipOfGroups } from '#pedigree/kinshipOfGroups.ts';
import { lineChance } from '#pedigree/lineChance.ts';
import { lineFigures } from '#pedigree/lineFigures.ts';
import { livingGroups } from '#pedigree/livingGroups.ts';
import { Fold } from '#records/fold.ts';
import type { ClubState } from '#records/state.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { randomHistory } from '#tests/helpers/randomHistory.ts';
import { breedingHistory } from './breedingHistory.ts';
import { Club, day, fish, parents, start } from './builders.ts';

const now = start + 2000 * day;
const exact = { abs: 1e-12 };
const unheard = () => undefined;

/** A pair and its young; then the pair dies. */
function pairWith(young: number): ClubState {
	const club = new Club();
	for (const [id, of] of [['sire', fish(1, 0)] as const, ['dam', fish(0, 1)] as const])
		club.founders(id, 'harbour', of, 'unrelated');
	const [fathers, mothers] = [parents([['sire', 'seen']]), parents([['dam', 'seen']])];
	club.spawn('march', 'harbour', { fathers, mothers, young });
	for (const [group, of] of [['sire', fish(1, 0)] as const, ['dam', fish(0, 1)] as const]) {
		const body = { group, room: 'harbour', fish: of, why: 'died', cause: '' };
		club.say('harbour-keeper', 'group/changed', 60, body, [group]);
	}
	return club.fold().state;
}

function roomsOf(state: ClubState) {
	const kinship = new KinshipOfGroups(state, 'cory');
	return roomsAhead(
		kinship,
		livingGroups(state, kinship).map(({ group }) => group)
	);
}

describe('roomsAhead', () => {
	it('halves fish not sexed and keeps ten of each sex at most', () => {
		const { rooms, table } = roomsOf(pairWith(25));
		expect(rooms.map(({ fathers, mothers }) => [fathers, mothers])).toEqual([[10, 10]]);
		// Brothers and sisters of one unrelated pair: 0.25, Wright (1922).
		expect([table.within[0], table.within[1], table.between[1]![0]]).toEqual([0.25, 0.25, 0.25]);
	});

	it('leaves out rooms with one sex, and says how many', () => {
		const club = new Club();
		club.founders('males', 'harbour', fish(4, 0), 'unrelated');
		club.founders('one', 'mill', fish(0, 0, 1), 'unrelated');
		club.founders('both', 'orchard', fish(2, 2), 'unrelated');
		const { rooms, roomsLeftOut } = roomsOf(club.fold().state);
		expect(rooms.map(({ room }) => room)).toEqual(['orchard']);
		expect(roomsLeftOut).toBe(2);
	});

	it('survives being sent to another thread', () => {
		const { table, rooms } = roomsOf(breedingHistory(3, 40).fold().state);
		const sent = structuredClone({ table, rooms });
		expect(projectRooms(sent.table, sent.rooms, 3)).toEqual(projectRooms(table, rooms, 3));
	});
});

describe('aheadOf', () => {
	it('starts with what the breeders hand on, never rises, and keeps in its range (seeds 1 to 30)', () => {
		let steps = 0;
		for (let seed = 1; seed <= 30; seed++) {
			const ahead = aheadOf(roomsOf(breedingHistory(seed, 40).fold().state));
			ahead.forEach(({ diversity, inbreeding }, i) => {
				steps++;
				if (i) expect(diversity.expected, `seed ${seed}`).toBeLessThan(ahead[i - 1]!.diversity.expected);
				for (const { least, expected, greatest } of [diversity, inbreeding]) {
					expect(least, `seed ${seed}`).toBeGreaterThanOrEqual(0);
					expect(least, `seed ${seed}`).toBeLessThanOrEqual(expected);
					expect(expected, `seed ${seed}`).toBeLessThanOrEqual(greatest);
				}
			});
		}
		expect(steps).toBeGreaterThan(200);
	});

	it('a pair with four young: the brothers and sisters hand on 1 - (1/4 + 1/16) (own arithmetic)', () => {
		// Two drawn of four with replacement: 1/4 the same fish with itself, 1/2, and 3/4 full brother or sister, 1/4.
		const [first] = aheadOf(roomsOf(pairWith(4)));
		expectClose(first!.diversity.expected, 1 - (1 / 4) * (1 / 2) - (3 / 4) * (1 / 4), exact);
	});
});

describe('aheadByChance', () => {
	it('plays the rooms of the expected course: means within 4 standard errors (seeds 1 to 4)', () => {
		for (let seed = 1; seed <= 4; seed++) {
			const rooms = roomsOf(breedingHistory(seed, 40).fold().state);
			const expected = aheadOf(rooms);
			const by = { random: randomFrom(seed), times: 200 };
			const played = projectRoomsByChance(rooms.table, rooms.rooms, 10, by);
			for (const { generation, geneDiversity: of } of played) {
				const allowed = { abs: 4 * of.standardError + 1e-9 };
				expectClose(of.mean, expected[generation]!.diversity.expected, allowed, `seed ${seed}`);
			}
		}
	});

	it('tells how far it is and what it knows so far; one seed gives one answer', () => {
		const { table, rooms } = roomsOf(pairWith(20));
		const told: { done: number; of: number; soFar?: unknown }[] = [];
		const ask = { table, rooms, times: 100, seed: 5 };
		const answer = aheadByChance(ask, (progress) => told.push(progress));
		expect(told.map(({ done }) => done)).toEqual(Array.from({ length: 50 }, (_, i) => 2 * (i + 1)));
		expect(told.find(({ soFar }) => soFar)).toMatchObject({ done: 40, soFar: { times: 40 } });
		expect(answer.diversity).toHaveLength(10);
		for (const { low, high } of answer.diversity) expect(low).toBeLessThan(high);
		expect(aheadByChance(ask, unheard)).toEqual(answer);
	});
});

describe('genesByChance', () => {
	function genesOf(state: ClubState) {
		return lineChance(state, new KinshipOfGroups(state, 'cory')).genes!;
	}

	it('a pair with n young keeps 1 - 2^-n of its genes, as if from 2 (1 - 2^-n) founders (own arithmetic)', () => {
		for (const n of [1, 2, 3]) {
			const answer = genesByChance({ ...genesOf(pairWith(n)), times: 400, seed: n }, unheard);
			// One place keeps each of 4 genes with variance below 1/4; there are 25 places and 400 drops.
			const allowed = { abs: 4 * Math.sqrt(1 / 4 / 4 / 25 / 400) };
			expectClose(answer.kept.mean, 1 - 2 ** -n, allowed, `kept of ${n}`);
			expectClose(answer.retentionEquivalents, 2 * (1 - 2 ** -n), { rel: 0.02 }, `equivalents of ${n}`);
			expectClose(answer.keptOf.get('sire')!, 1 - 2 ** -n, { abs: 0.02 }, `sire of ${n}`);
		}
	});

	it('founders that are all there keep all their genes; a brood of one pair counts as two founders', () => {
		const club = new Club();
		club.founders('shop', 'harbour', fish(20, 20), 'one brood');
		const answer = genesByChance({ ...genesOf(club.fold().state), times: 5, seed: 1 }, unheard);
		expect(answer.kept).toEqual({ mean: 1, low: 1, high: 1 });
		expectClose(answer.retentionEquivalents, 2, exact);
	});

	it('its diversity lies about the expected one, and its answer is repeatable (seeds 1 to 6)', () => {
		for (let seed = 1; seed <= 6; seed++) {
			const { state } = breedingHistory(seed, 25).fold();
			const ask = { ...genesOf(state), times: 100, seed };
			const { diversity, kept } = genesByChance(ask, unheard);
			const expected = lineFigures(state, 'cory', { now }).diversity!.expected;
			expect(diversity.low, `seed ${seed}`).toBeLessThan(expected + 0.03);
			expect(diversity.high, `seed ${seed}`).toBeGreaterThan(expected - 0.03);
			expect(kept.low).toBeLessThanOrEqual(kept.mean);
			expect(kept.mean).toBeLessThanOrEqual(kept.high);
			expect(genesByChance(ask, unheard).diversity).toEqual(diversity);
		}
	});
});

it('any history can be played (seeds 1 to 40)', () => {
	let played = 0;
	const play = (state: ClubState, line: string) => {
		const { ahead, genes } = lineChance(state, new KinshipOfGroups(state, line));
		const by = { times: 2, seed: 1 };
		if (ahead) played += aheadByChance({ ...ahead, ...by }, unheard).times;
		if (genes) played += genesByChance({ ...genes, ...by }, unheard).times;
	};
	for (let seed = 1; seed <= 40; seed++) {
		const fold = new Fold();
		fold.add(randomHistory(seed, 200).inputs);
		for (const line of fold.state.lines.keys()) play(fold.state, line);
		play(breedingHistory(seed, 40).fold().state, 'cory');
	}
	expect(played).toBeGreaterThan(200);
});

it('founder shares: between what they are if the one or the other was the father (own arithmetic)', () => {
	const club = new Club();
	for (const [id, of] of [
		['sire', fish(1, 0)],
		['rival', fish(1, 0)],
		['dam', fish(0, 1)]
	] as const)
		club.founders(id, 'harbour', of, 'unrelated');
	club.spawn('march', 'harbour', {
		fathers: parents([
			['sire', 'possible'],
			['rival', 'possible']
		]),
		mothers: parents([['dam', 'seen']]),
		young: 17
	});
	const { founders } = lineFigures(club.fold().state, 'cory', { now });
	// 20 fish: the founders themselves are one each, the 17 young have a half of the dam and of one of the males.
	const of = (id: string) => founders.find(({ group }) => group === id)!;
	expectClose(of('sire').least, 1 / 20, exact);
	expectClose(of('sire').greatest, (1 + 17 / 2) / 20, exact);
	expectClose(of('sire').share, (1 + 17 / 4) / 20, exact);
	expect([of('dam').least, of('dam').greatest]).toEqual([of('dam').share, of('dam').share]);
});
