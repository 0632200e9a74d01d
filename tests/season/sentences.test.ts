import { describe, expect, it } from 'vitest';
import { bagByHand } from '#planning/season/bagByHand.ts';
import type { PossibleBag } from '#planning/season/season.ts';
import { seasonFigures } from '#planning/season/seasonFigures.ts';
import { seasonStops } from '#planning/season/seasonStops.ts';
import type { Fish } from '#records/state.ts';
import { bagSentence } from '#season/bagSentence.ts';
import { clashSentence, stopSentence } from '#season/clashSentence.ts';
import { alternativeSentence, planSentence } from '#season/planSentence.ts';
import type { SeasonAsked } from '#season/seasonWords.ts';
import { fish, holdingOf, SeasonClub } from './seasonClub.ts';

const one = (group: string) => ({ of: [{ group, standing: 'seen' }], others: false, number: 'one' });

/** Harbour and mill have brothers and sisters of one pair; orchard has fish that share nothing with them. */
function family(): SeasonClub {
	const club = new SeasonClub().line('blue');
	club.group('pair', 'harbour', 'blue', fish(1, 1));
	const spawn = { spawn: 's', brood: 'brood', line: 'blue', room: 'harbour', inGroup: 'pair', sort: 'drop' };
	const parents = { fathers: one('pair'), mothers: one('pair'), stage: 'adult', certainty: 'counted' };
	club.say('harbour-keeper', 'spawn/seen', { ...spawn, ...parents, fish: fish(8, 8) }, 50);
	const origin = { from: 'group', groups: ['brood'] };
	club.say(
		'officer',
		'group/started',
		{
			...{ group: 'kin', line: 'blue', room: 'mill', name: 'kin tank', tank: '', origin, fish: fish(2, 2) },
			...{ certainty: 'counted', stage: 'adult' }
		},
		40
	);
	return club.group('fresh', 'orchard', 'blue', fish(4, 5)).meeting();
}
function bagOf(asked: SeasonAsked, group: string, of: Fish, room: string, line = 'blue'): PossibleBag {
	const source = asked.problem.sources.findIndex(({ id }) => id === group);
	return bagByHand(asked.problem, { gives: [{ source, fish: of }], holding: holdingOf(asked, line, room) });
}
const planOf = (asked: SeasonAsked, ...bags: PossibleBag[]) => ({
	bags,
	figures: seasonFigures(asked.problem, bags)
});
function reasonOf(club: SeasonClub, settings: object, group: string, of: Fish, room: string): string {
	const asked = club.asked(settings);
	const bag = bagOf(asked, group, of, room);
	const { reason, notes } = bagSentence(asked, planOf(asked, bag), bag);
	return `${reason} ${notes}`;
}

describe('bagSentence: every part of it holds', () => {
	const toMill = (club: SeasonClub, settings: object = {}) =>
		reasonOf(club, settings, 'fresh', fish(2, 0), 'mill');

	it('names fish, room and group, and has the figures', () => {
		const asked = family().asked();
		const bag = bagOf(asked, 'fresh', fish(2, 0), 'mill');
		const said = bagSentence(asked, planOf(asked, bag), bag);
		expect(said.short).toBe('2m of BLUE: Orchard room to Mill room');
		expect(said.reason).toMatch(/^Two males from Orchard room \(fresh tank\): /);
		// Full brothers and sisters: 0.25 (Wright 1922); both males are replaced by unrelated ones: 0.
		expect(said.figures).toBe('Their young: 0.00. Next young in Mill room: 0.00, without the plan 0.25.');
	});

	it('says "as little related as any" only where nothing less related can come', () => {
		const club = family();
		const alone = 'they and their mates are not related as far as we know, and no others can come';
		expect(toMill(club)).toContain(alone);
		club.group('found', 'attic', 'blue', fish(4, 6), { origin: { from: 'not known' } });
		expect(toMill(club)).toContain('as little related to their mates as any fish that can come');
		expect(toMill(club)).not.toContain('no others');
		const found = reasonOf(club, {}, 'found', fish(2, 0), 'mill');
		expect(found).toContain('they and their mates are as close as cousins');
		expect(found).not.toContain('as little related');
	});

	it('says "least bad choice" only where all that can come are close', () => {
		const club = family();
		const only = club.asked({ notFrom: ['fresh'], lines: ['blue'] });
		const bag = { ...bagOf(only, 'brood', fish(2, 0), 'mill'), leastBad: true };
		const said = bagSentence(only, planOf(only, bag), bag).reason;
		expect(said).toContain('they and their mates are as close as brother and sister, the least bad choice');
		expect(toMill(club)).not.toContain('least bad');
	});

	it('says "less inbred" only where the next young are', () => {
		expect(toMill(family())).toContain('the next young there will be less inbred');
		expect(reasonOf(family(), {}, 'brood', fish(2, 0), 'mill')).not.toContain('less inbred');
	});

	it('says that no tank is closed only where none is closed or in quarantine', () => {
		const club = family();
		expect(toMill(club)).toContain('no tank is closed or in quarantine in either room');
		club.line('gold').group('other', 'mill', 'gold', fish(1, 1));
		club.say('mill-keeper', 'group/closed', { group: 'other', room: 'mill', reason: '' }, 1);
		expect(toMill(club, { lines: ['blue'] })).not.toContain('no tank is closed');
	});

	it('says what the way is, and who is only counted on to come', () => {
		const club = family();
		expect(toMill(club)).toContain('a drive');
		expect(toMill(club)).not.toContain('covers it');
		expect(toMill(club.far('Coast', 'Hills'))).toContain('a long way from Hills to Coast');
		club.attends('orchard', true);
		const meets = toMill(club, { meeting: 'winter' });
		expect(meets).toContain('Winter meeting on 14 December 2026 covers it if Mill room comes');
		club.attends('mill', true);
		expect(toMill(club, { meeting: 'winter' })).toMatch(/14 December 2026 covers it[.,]/);
		club.attends('mill', false);
		expect(toMill(club, { meeting: 'winter' })).not.toContain('covers it');
	});

	it('says whether the fish were offered', () => {
		const club = family();
		expect(toMill(club)).toContain('Not offered yet: they are more than the group needs');
		club.spare('fresh', 'orchard', fish(2, 2));
		expect(toMill(club)).not.toMatch(/offered/i);
	});

	it('says who waits since when, and that the line has one room only', () => {
		const club = new SeasonClub().line('blue').group('colony', 'harbour', 'blue', fish(6, 7));
		club.want('blue', 'orchard', 20).want('blue', 'attic', 10);
		const first = reasonOf(club, {}, 'colony', fish(2, 3), 'orchard');
		expect(first).toContain(
			'a first group for this room, which has asked since 6 November 2026 and is first in line'
		);
		expect(first).toContain('the line has only one room so far');
		const second = reasonOf(club, {}, 'colony', fish(2, 3), 'attic');
		expect(second).toContain('which has asked since 16 November 2026');
		expect(second).not.toContain('first in line');
		club.group('others', 'mill', 'blue', fish(1, 1));
		expect(reasonOf(club, {}, 'colony', fish(2, 3), 'orchard')).not.toContain('only one room');
	});

	it('says that fish go back, and who has had more than they gave', () => {
		const club = family();
		expect(toMill(club)).not.toMatch(/go back|more bags/);
		club.bag('b', 'mill', 'orchard', 'kin', 'blue', fish(1, 0), 200);
		const asked = club.asked();
		expect(toMill(club)).toContain('Orchard room has had more bags this year than it gave');
		expect(toMill(club)).toContain('Mill room has given more bags this year than it had');
		expect(asked.problem.rooms.length).toBe(3);
		club.counts('b-fish', 'orchard', fish(4, 0));
		expect(reasonOf(club, {}, 'b-fish', fish(1, 0), 'mill')).toContain(
			'go back to the room that they came from'
		);
	});

	it('says between which figures the kinship lies where the record is open', () => {
		const club = family();
		expect(toMill(club)).not.toContain('surely between');
		club.group('found', 'attic', 'blue', fish(4, 6), { origin: { from: 'not known' } });
		expect(reasonOf(club, {}, 'found', fish(2, 0), 'mill')).toContain('surely between 0.00 and 0.25');
	});

	it('never tells who is not to be paired', () => {
		const club = family();
		club.notToPair(['orchard-keeper', 'mill-keeper']);
		const asked = club.asked();
		const bag = bagOf(asked, 'fresh', fish(2, 0), 'mill');
		const stops = seasonStops(asked.problem, [bag]);
		expect(stops.map(({ stop }) => stop)).toContain('apart');
		const said = stops.map((stop) => stopSentence(asked, stop)).join(' ');
		expect(said).toContain('Nothing goes between these two rooms in this plan. Choose another room.');
		expect(said).not.toMatch(/quarrel|keeper/);
	});
});

describe('sentences of plans', () => {
	it('the whole plan, with how it stands', () => {
		const asked = family().asked();
		const plan = planOf(asked, bagOf(asked, 'fresh', fish(2, 0), 'mill'));
		expect(planSentence(asked, plan)).toMatch(
			/^One bag, one trip\. The next young are (a little |much )?less inbred than without it: 0\.\d\d on average, not 0\.\d\d\. Young of brother and sister: 0\.25\.$/
		);
		const proven = { ...plan, bound: plan.figures.objective, isProven: true, givenUp: [], clash: [] };
		expect(planSentence(asked, proven)).toContain('No better plan exists for what was asked.');
		const unproven = (bound: number) => planSentence(asked, { ...proven, isProven: false, bound });
		expect(unproven(-Infinity)).toContain('There may be a still better plan.');
		expect(unproven(0.98 * plan.figures.objective)).toContain(
			'There may be a still better plan, by 2.0 % of what is weighed at most.'
		);
		expect(planSentence(asked, planOf(asked))).toContain('No bag is worth moving');
	});

	it('an alternative, by what is different', () => {
		const asked = family().asked();
		const balanced = planOf(asked, bagOf(asked, 'fresh', fish(2, 0), 'mill'));
		expect(alternativeSentence(asked, balanced, balanced)).toBe('The same as the balanced plan.');
		expect(alternativeSentence(asked, balanced, planOf(asked))).toMatch(
			/^One trip fewer, one bag fewer, the next young 0\.\d\d inbred on average instead of 0\.\d\d\.$/
		);
		const other = planOf(asked, bagOf(asked, 'fresh', fish(2, 0), 'harbour'));
		expect(alternativeSentence(asked, balanced, other)).not.toContain('same');
	});

	it('wishes that clash, by name', () => {
		const asked = family().asked({ tripsAtMost: 0, newBloodFor: [['blue', 'mill']] });
		const clash = ['trips', 'newBlood:blue:mill'];
		expect(clashSentence(asked, { givenUp: [], clash: [] })).toBe('');
		expect(clashSentence(asked, { givenUp: ['trips'], clash })).toBe(
			'These cannot all be: no trips; new blood of blue guppy for Mill room. This plan leaves out: no trips.'
		);
	});

	it('each stop has a sentence that says what to do or what is', () => {
		const club = family();
		club.say('mill-keeper', 'room/closed', { room: 'mill', reason: '' }, 1);
		const asked = club.asked({ perRoom: { bagsOut: 0, bagsIn: 0 } });
		const bag = bagOf(asked, 'fresh', fish(9, 0), 'harbour');
		const said = seasonStops(asked.problem, [bag]).map((stop) => stopSentence(asked, stop));
		expect(said).toContain('fresh tank cannot spare so many: two males and two females at most. Take fewer.');
		expect(said).toContain('Harbour room can take no bag in this plan.');
		const closed = seasonStops(asked.problem, [bagOf(asked, 'fresh', fish(1, 0), 'harbour')]);
		expect(closed.some(({ stop }) => stop === 'tooFewFish')).toBe(false);
	});
});
