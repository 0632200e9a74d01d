import { describe, expect, it } from 'vitest';
import { lineFigures } from '#pedigree/lineFigures.ts';
import { pairingAdvice } from '#pedigree/pairingAdvice.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { Fold } from '#records/fold.ts';
import { randomHistory } from '#tests/helpers/randomHistory.ts';
import { breedingHistory } from './breedingHistory.ts';
import { Club, day, fish, parents, start } from './builders.ts';

const now = start + 400 * day;
const exact = { abs: 1e-12 };

/** A pair that died, and its 20 young. */
function onePair(): Club {
	const club = new Club();
	for (const [id, of] of [
		['sire', fish(1, 0)],
		['dam', fish(0, 1)]
	] as const) {
		club.founders(id, 'harbour', of, 'unrelated');
	}
	club.spawn('march', 'harbour', {
		fathers: parents([['sire', 'seen']]),
		mothers: parents([['dam', 'seen']])
	});
	for (const [group, of] of [
		['sire', fish(1, 0)],
		['dam', fish(0, 1)]
	] as const)
		club.say(
			'harbour-keeper',
			'group/changed',
			60,
			{ group, room: 'harbour', fish: of, why: 'died', cause: '' },
			[group]
		);
	return club;
}

describe('lineFigures', () => {
	it('a pair with n young: mean kinship 1/4 + 1/(4n), as if from 2n/(n+1) founders (own arithmetic)', () => {
		const figures = lineFigures(onePair().fold().state, 'cory', { now });
		const n = 20;
		expectClose(figures.diversity!.expected, 1 - (1 / 4 + 1 / (4 * n)), exact);
		expectClose(figures.likeFounders!.expected, (2 * n) / (n + 1), exact);
		expect(figures.diversity!.exact).toBe(true);
		expect(figures.founders.map(({ group, share }) => [group, share]).sort()).toEqual([
			['dam', 0.5],
			['sire', 0.5]
		]);
		expectClose(figures.founderEquivalents!, 2, exact);
		expect(figures.groups.map(({ group, generation }) => [group, generation])).toEqual([['march-young', 1]]);
		expect(figures.byGeneration.map((one) => one.generation)).toEqual([0, 1]);
		expect(figures.surer).toEqual([]);
	});

	it('ahead: sixteen young of one pair go on as ten males and ten females, full brothers and sisters', () => {
		const { ahead } = lineFigures(onePair().fold().state, 'cory', { now });
		expect(ahead).toHaveLength(11);
		// The first generation to come are young of full brothers and sisters: 0.25, Wright (1921), Genetics 6:111.
		expectClose(ahead[1]!.inbreeding.expected, 0.25, exact);
		// From then on 10 + 10 breeders drift as Ne = 20 would: each step loses about 1/40, Wright (1931).
		for (let i = 2; i < 11; i++) {
			const lost = 1 - ahead[i]!.diversity.expected / ahead[i - 1]!.diversity.expected;
			expect(lost).toBeGreaterThan(0.02);
			expect(lost).toBeLessThan(0.03);
		}
	});

	it('names the brood whose father would make it surer, and why', () => {
		const club = onePair();
		club.founders('rival', 'harbour', fish(1, 0), 'unrelated', 61);
		club.founders('other', 'harbour', fish(1, 2), 'unrelated', 61);
		club.spawn('may', 'harbour', {
			...{ at: 130, mothers: parents([['march-young', 'seen']]) },
			fathers: parents([
				['rival', 'possible'],
				['march-young', 'possible']
			])
		});
		const figures = lineFigures(club.fold().state, 'cory', { now });
		expect(figures.surer[0]).toMatchObject({
			spawn: 'may',
			sentence: 'Find out the parents of the brood of May 2025.',
			why: 'the father of the brood of May 2025 is one of two'
		});
		const { diversity } = figures;
		expect(diversity!.least).toBeLessThan(diversity!.expected);
		expect(diversity!.greatest).toBeGreaterThan(diversity!.expected);
	});

	it('every figure lies in its range, and shares sum to 1 (seeds 1 to 20)', () => {
		for (let seed = 1; seed <= 20; seed++) {
			const { state } = breedingHistory(seed, 50).fold();
			const figures = lineFigures(state, 'cory', { now: start + 2000 * day });
			const shares = figures.founders.reduce((sum, { share }) => sum + share, figures.outsideShare);
			expectClose(shares, 1, { abs: 1e-9 });
			const ranged = [figures.diversity!, figures.inbreeding!, figures.likeFounders!];
			const ofFounders = figures.founders.map((one) => ({ ...one, expected: one.share }));
			const ofCourse = [...figures.course, ...figures.byGeneration].map(({ diversity }) => diversity);
			const ofGroups = figures.groups.flatMap((group) => [group.meanKinship, group.inbreeding]);
			for (const { least, expected, greatest } of [...ranged, ...ofGroups, ...ofFounders, ...ofCourse]) {
				expect(least, `seed ${seed}`).toBeLessThanOrEqual(expected + 1e-9);
				expect(expected, `seed ${seed}`).toBeLessThanOrEqual(greatest + 1e-9);
			}
			// The mean over fish of each group's mean kinship is that of the line (Ballou & Lacy 1995, from memory).
			const fishOf = (group: string) => {
				const { males, females, unsexed } = state.groups.get(group)!.now.fish;
				return males + females + unsexed;
			};
			const mean = figures.groups.reduce(
				(sum, group) => sum + (group.meanKinship.expected * fishOf(group.group)) / figures.livingFish,
				0
			);
			if (figures.groups.every(({ group }) => fishOf(group) > 0))
				expectClose(1 - mean, figures.diversity!.expected, { abs: 0.02 });
		}
	});

	it('any history is answered (seeds 1 to 60)', () => {
		let asked = 0;
		for (let seed = 1; seed <= 60; seed++) {
			const fold = new Fold();
			fold.add(randomHistory(seed, 200).inputs);
			for (const line of fold.state.lines.keys()) {
				const figures = lineFigures(fold.state, line, { now });
				asked += figures.groups.length;
				// The last year is now: what is said of now and the end of the curve are one figure.
				if (figures.diversity)
					expectClose(figures.course.at(-1)!.diversity.expected, figures.diversity.expected, exact);
				for (const room of fold.state.rooms.keys()) pairingAdvice(fold.state, { line, room, now });
			}
		}
		expect(asked).toBeGreaterThan(50);
	});
});

describe('pairingAdvice', () => {
	function room(): Club {
		const club = onePair();
		club.founders('strangers', 'harbour', fish(2, 3), 'unrelated', 62);
		club.say(
			'harbour-keeper',
			'group/counted',
			200,
			{ group: 'march-young', room: 'harbour', fish: fish(6, 8), certainty: 'counted' },
			['march-young']
		);
		return club;
	}

	it('pairs the least related, and uses males of every group', () => {
		const advice = pairingAdvice(room().fold().state, { line: 'cory', room: 'harbour', now });
		expect(advice.pairs.map((pair) => [pair.females.group, pair.males.group])).toEqual([
			['march-young', 'strangers'],
			['strangers', 'march-young']
		]);
		expect(advice.pairs[0]).toMatchObject({ tier: 'fine', words: 'not related as far as we know' });
		expect(advice.pairs[0]!.others.map(({ words }) => words)).toEqual(['as close as brother and sister']);
		expect(advice.take).toEqual([expect.objectContaining({ brood: 'march-young', each: 2 })]);
		expect(advice.leastBadOnly).toBe(false);
	});

	it('leaves out closed tanks and suspected mixes and says so', () => {
		const club = room();
		const body = { group: 'strangers', room: 'harbour', line: 'cory', sort: 'shared net', what: '' };
		club.say('harbour-keeper', 'group/mixed', 210, body, ['strangers']);
		const advice = pairingAdvice(club.fold().state, { line: 'cory', room: 'harbour', now });
		expect(advice.leftOut).toEqual([expect.objectContaining({ group: 'strangers', why: 'suspected mix' })]);
		expect(advice.pairs.map((pair) => pair.tier)).toEqual(['tooClose']);
		expect(advice.leastBadOnly).toBe(true);
	});

	it('says why there is nothing to advise', () => {
		const advice = pairingAdvice(room().fold().state, { line: 'cory', room: 'mill', now });
		expect(advice).toMatchObject({ pairs: [], none: 'This room has no fish of this line.' });
	});
});
