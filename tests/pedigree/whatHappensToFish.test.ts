/** Small histories of fish that leave, die, come back or come from one source, with kinship by hand (Wright 1922). */
import { describe, expect, it } from 'vitest';
import { KinshipOfGroups } from '#pedigree/kinshipOfGroups.ts';
import { lineFigures } from '#pedigree/lineFigures.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { Club, day, fish, parents, start } from './builders.ts';

/** Sums of halves in double precision. */
const exact = { abs: 1e-12 };

/** A wild pair and its 20 young in the harbour room. */
function brood(): Club {
	const club = new Club();
	club.founders('father', 'harbour', fish(1, 0), 'unrelated');
	club.founders('mother', 'harbour', fish(0, 1), 'unrelated');
	club.spawn('march', 'harbour', {
		fathers: parents([['father', 'seen']]),
		mothers: parents([['mother', 'seen']])
	});
	return club;
}
const kinshipIn = (club: Club) => new KinshipOfGroups(club.fold().state, 'cory');
function between(club: Club, a: string, b: string): number {
	return kinshipIn(club).between([a], [b]).expected;
}
function bagOf(club: Club, to: string, count: number, at: number, from = 'march-young'): string {
	const group = `${to} ${at}`;
	club.bag(`bag ${at}`, {
		from: 'harbour',
		to,
		contents: [{ group: from, fish: fish(0, 0, count) }],
		group,
		at
	});
	return group;
}
function moved(club: Club, from: string, to: string, of: ReturnType<typeof fish>, at: number): void {
	club.say('harbour-keeper', 'group/moved', at, { from, to, room: 'harbour', fish: of }, [from, to]);
}
function died(club: Club, group: string, of: ReturnType<typeof fish>, at: number): void {
	const body = { group, room: 'harbour', fish: of, why: 'died', cause: '' };
	club.say('harbour-keeper', 'group/changed', at, body, [group]);
}

describe('fish that left are others than those that stayed', () => {
	it.each([1, 6, 10, 12, 19])('%i of 20 brothers and sisters in a bag: 1/4 with the rest', (count) => {
		const club = brood();
		const bag = bagOf(club, 'mill', count, 60);
		expectClose(between(club, 'march-young', bag), 1 / 4, exact);
	});

	it('a second bag is taken from those that stayed, not from the first', () => {
		const club = brood();
		const first = bagOf(club, 'mill', 12, 60);
		club.founders('stranger', 'mill', fish(0, 0, 12), 'unrelated', 61);
		const body = { from: 'stranger', to: first, room: 'mill', fish: fish(0, 0, 12) };
		club.say('mill-keeper', 'group/moved', 70, body, ['stranger', first]);
		const second = bagOf(club, 'orchard', 4, 90);
		// All of the second are young of the pair, and half of the first by then.
		expectClose(between(club, second, 'march-young'), 1 / 4, exact);
		expectClose(between(club, second, first), 1 / 8, exact);
	});

	it('all of them in one bag, males and females: brothers and sisters of each other', () => {
		const club = brood();
		const contents = [{ group: 'march-young', fish: fish(8, 12) }];
		club.bag('all', { from: 'harbour', to: 'mill', contents, group: 'all gone' });
		const kinship = kinshipIn(club);
		expectClose(kinship.within(['all gone']).expected, 1 / 4, exact);
		const units = kinship.fishOf(['all gone']);
		expect(units.map((one) => one.fish)).toEqual([8, 12]);
		expectClose(kinship.table.between[units[1]!.unit]![units[0]!.unit]!, 1 / 4, exact);
	});

	it('a count and newcomers while the bag is on its way do not get into the bag', () => {
		const club = brood();
		club.founders('stranger', 'harbour', fish(0, 0, 30), 'unrelated');
		const contents = [{ group: 'march-young', fish: fish(0, 0, 12) }];
		const to = { to: 'room', room: 'mill' };
		club.bagged('harbour-keeper', 'b', 60, { line: 'cory', contents, fromRoom: 'harbour', to });
		moved(club, 'stranger', 'march-young', fish(0, 0, 24), 63);
		const arrived = { group: 'at mill' };
		club.arrived('mill-keeper', 'b', 70, 'mill', fish(0, 0, 12), arrived);
		expectClose(between(club, 'at mill', 'stranger'), 0, exact);
		// By hand: 8 of 32 are brothers and sisters of those in the bag.
		expectClose(between(club, 'at mill', 'march-young'), 1 / 16, exact);
	});

	it('a bag that never arrived leaves the others as they were', () => {
		const club = brood();
		const bag = bagOf(club, 'mill', 6, 60);
		club.bagged('harbour-keeper', 'lost bag', 70, {
			...{ line: 'cory', contents: [{ group: 'march-young', fish: fish(0, 0, 10) }] },
			...{ fromRoom: 'harbour', to: { to: 'room', room: 'orchard' } }
		});
		const kinship = kinshipIn(club);
		expectClose(kinship.between(['march-young'], [bag]).expected, 1 / 4, exact);
		expect(kinship.fishOf(['march-young']).reduce((sum, one) => sum + one.fish, 0)).toBe(4);
	});

	it('one bag that arrives in two rooms: brothers and sisters, not the same fish', () => {
		const club = brood();
		const contents = [{ group: 'march-young', fish: fish(0, 0, 8) }];
		const to = { to: 'room', room: 'mill' };
		club.bagged('harbour-keeper', 'b', 60, { line: 'cory', contents, fromRoom: 'harbour', to });
		club.arrived('mill-keeper', 'b', 61, 'mill', fish(0, 0, 5), { group: 'at mill' });
		club.arrived('orchard-keeper', 'b', 61, 'orchard', fish(0, 0, 3), { group: 'at orchard' });
		expectClose(between(club, 'at mill', 'at orchard'), 1 / 4, exact);
		expectClose(between(club, 'at mill', 'march-young'), 1 / 4, exact);
	});
});

describe('fish that died are not mixed with those that came after them', () => {
	it('a group of which all died and that was filled again is the fish that came', () => {
		const club = brood();
		club.founders('tank', 'harbour', fish(0, 0, 9), 'unrelated');
		died(club, 'tank', fish(0, 0, 9), 70);
		moved(club, 'march-young', 'tank', fish(0, 0, 4), 80);
		expectClose(between(club, 'tank', 'march-young'), 1 / 4, exact);
	});

	it('a male that died and the one that came for him', () => {
		const club = brood();
		club.founders('trio', 'harbour', fish(1, 2), 'unrelated');
		club.founders('new male', 'harbour', fish(1, 0), 'unrelated', 2);
		const trio = parents([['trio', 'seen']], false, 'several');
		club.spawn('april', 'harbour', { fathers: trio, mothers: trio, at: 60 });
		died(club, 'trio', fish(1, 0), 70);
		moved(club, 'new male', 'trio', fish(1, 0), 80);
		club.spawn('june', 'harbour', { fathers: trio, mothers: trio, at: 150 });
		// Two mothers for both broods, drawn for each young, and fathers who are strangers: (1/4) (1/2) (1/2).
		expectClose(between(club, 'april-young', 'june-young'), 1 / 16, exact);
		// By hand: the new male is the father of all; the trio is he and two females, each mother of half of them.
		const all = (1 / 4 + 2 * (1 / 8)) / 3;
		expectClose(between(club, 'june-young', 'trio'), all, exact);
		expectClose(kinshipIn(club).within(['june-young']).expected, (1 + 1 / 2) / 8, exact);
	});

	it('few that were left are not outweighed by those that died', () => {
		const club = brood();
		club.founders('tank', 'harbour', fish(0, 0, 20), 'unrelated');
		died(club, 'tank', fish(0, 0, 16), 70);
		moved(club, 'march-young', 'tank', fish(0, 0, 4), 80);
		// By hand: 4 strangers and 4 brothers and sisters.
		expectClose(between(club, 'tank', 'march-young'), 1 / 8, exact);
	});

	it('three females went to a tank of five and all that tank\u2019s fish are weighed as they are then', () => {
		const club = brood();
		club.founders('tank', 'harbour', fish(0, 5), 'unrelated');
		club.say(
			'harbour-keeper',
			'group/counted',
			50,
			{ group: 'march-young', room: 'harbour', fish: fish(10, 10), certainty: 'counted' },
			['march-young']
		);
		moved(club, 'march-young', 'tank', fish(0, 3), 80);
		expectClose(between(club, 'tank', 'march-young'), (3 / 8) * (1 / 4), exact);
	});
});

describe('figures of a line go by the fish of now', () => {
	it('ten strangers and one that is left of ten: shares of founders 10/11 and 1/11', () => {
		const club = new Club();
		for (const tank of ['full', 'nearly empty']) club.founders(tank, 'harbour', fish(0, 0, 10), 'unrelated');
		died(club, 'nearly empty', fish(0, 0, 9), 70);
		const { state } = club.fold();
		const figures = lineFigures(state, 'cory', { now: start + 400 * day });
		const share = new Map(figures.founders.map((one) => [one.group, one.share]));
		expectClose(share.get('full')!, 10 / 11, exact);
		expectClose(share.get('nearly empty')!, 1 / 11, exact);
		// Eleven unrelated fish: mean kinship 1/22, and 1/sum p² with ten founders of which one is there for all.
		expectClose(figures.diversity!.expected, 1 - 1 / 22, exact);
		expectClose(figures.founderEquivalents!, 1 / (10 / 121 + 1 / 121 / 10), exact);
	});
});

describe('fish of one source, whenever they came', () => {
	const shop = (club: Club, group: string, room: string, at: number, of = fish(0, 0, 6)) =>
		club.group(group, room, of, { from: 'founders', source: 'Harbour shop', related: 'one brood' }, at);
	const counted = (club: Club, group: string, of: ReturnType<typeof fish>, at: number) =>
		club.say(
			'harbour-keeper',
			'group/counted',
			at,
			{ group, room: 'harbour', fish: of, certainty: 'counted' },
			[group]
		);

	it('two bags of one shop at one time: as related as within', () => {
		const club = new Club();
		shop(club, 'first', 'harbour', 1);
		shop(club, 'second', 'mill', 1);
		expectClose(between(club, 'first', 'second'), 1 / 4, exact);
	});

	it('the second came when the sexes of the first had been told apart', () => {
		const club = new Club();
		shop(club, 'first', 'harbour', 1);
		counted(club, 'first', fish(3, 3), 40);
		shop(club, 'second', 'mill', 60);
		expectClose(between(club, 'first', 'second'), 1 / 4, exact);
	});

	it('the second came when the first had young', () => {
		const club = new Club();
		shop(club, 'first', 'harbour', 1, fish(2, 4));
		const first = parents([['first', 'seen']], false, 'several');
		club.spawn('march', 'harbour', { fathers: first, mothers: first, at: 30 });
		shop(club, 'second', 'mill', 60);
		// By hand: father and mother are each as related to the second as any fish of the shop.
		expectClose(between(club, 'march-young', 'second'), 1 / 4, exact);
		const range = kinshipIn(club).between(['march-young'], ['second']);
		expectClose(range.least, 0, exact);
		expectClose(range.greatest, 1 / 4, exact);
	});
});

describe('single fish of which nobody knows the sex', () => {
	it('one that is surely the father is not the mother', () => {
		const club = brood();
		for (const one of ['left fish', 'right fish', 'third fish'])
			club.founders(one, 'harbour', fish(0, 0, 1), 'unrelated', 2);
		const any = ['left fish', 'right fish', 'third fish'].map((id) => [id, 'possible'] as const);
		club.spawn('june', 'harbour', {
			...{ fathers: parents([['left fish', 'seen']]), mothers: parents(any), at: 150 }
		});
		const kinship = kinshipIn(club);
		expectClose(kinship.between(['june-young'], ['left fish']).expected, 1 / 4, exact);
		expectClose(kinship.between(['june-young'], ['third fish']).expected, 1 / 8, exact);
	});

	it('three that may each be either are answered, if not to the last decimal', () => {
		const club = brood();
		const all = ['left fish', 'right fish', 'third fish'];
		for (const one of all) club.founders(one, 'harbour', fish(0, 0, 1), 'unrelated', 2);
		const any = parents(all.map((id) => [id, 'possible'] as const));
		club.spawn('june', 'harbour', { fathers: any, mothers: any, at: 150 });
		const { least, expected, greatest } = kinshipIn(club).between(['june-young'], ['third fish']);
		expect(least).toBe(0);
		expect(expected).toBeGreaterThan(0);
		expect(greatest).toBeLessThanOrEqual(1 / 4);
	});

	it('two that are both named on both sides are no contradiction', () => {
		const club = brood();
		for (const one of ['left fish', 'right fish'])
			club.founders(one, 'harbour', fish(0, 0, 1), 'unrelated', 2);
		const either = parents([
			['left fish', 'possible'],
			['right fish', 'possible']
		]);
		club.spawn('june', 'harbour', { fathers: either, mothers: either, at: 150 });
		const kinship = kinshipIn(club);
		expectClose(kinship.between(['june-young'], ['left fish']).expected, 1 / 4, exact);
		expectClose(kinship.between(['june-young'], ['march-young']).expected, 0, exact);
	});
});

describe('stored sperm, from the record to the figure (common practice, no source)', () => {
	/** A female of a pair is moved to a tank of her own and has young there, of which nobody names the father. */
	function moved(fishGroup: string, daysBefore: number): KinshipOfGroups {
		const club = new Club();
		club.line('live', { fishGroup });
		for (const [group, of] of [
			['colony', fish(1, 1)],
			['elsewhere', fish(1, 0)]
		] as const)
			club.founders(group, 'harbour', of, 'unrelated', 1, 'live');
		// Kept so long that nothing stored before they came matters.
		const at = 600;
		const origin = { from: 'group', groups: ['colony'] };
		club.group('her', 'harbour', fish(0, 1), origin, at - daysBefore, 'counted', 'live');
		const body = {
			...{ spawn: 'drop', brood: 'drop-young', line: 'live', room: 'harbour', inGroup: 'her', sort: 'drop' },
			...{ fathers: parents([], true), mothers: parents([['her', 'seen']]) },
			...{ stage: 'free-swimming', fish: fish(0, 0, 10), certainty: 'counted' }
		};
		club.say('harbour-keeper', 'spawn/seen', at, body, ['drop']);
		return new KinshipOfGroups(club.fold().state, 'live');
	}
	it.each([
		['guppy', 270, 1 / 4],
		['guppy', 335, 0],
		['livebearer', 270, 1 / 4],
		['goodeid', 28, 1 / 4],
		['goodeid', 90, 0],
		['corydoras', 1, 0]
	])('%s, %i days after the male was left: kinship of young and male %d', (fishGroup, days, expected) => {
		// The colony is now the male alone: father and young 1/4 (Wright 1922), or a stranger is the father.
		const kinship = moved(fishGroup, days);
		expectClose(kinship.between(['drop-young'], ['colony']).expected, expected, exact);
		expectClose(kinship.between(['drop-young'], ['her']).expected, 1 / 4, exact);
		expectClose(kinship.between(['drop-young'], ['elsewhere']).expected, 0, exact);
	});

	it('two drops inside the window have one and the same unknown father: brothers and sisters', () => {
		const club = new Club();
		club.line('live', { fishGroup: 'goodeid' });
		club.founders('her', 'harbour', fish(0, 1), 'unrelated', 500, 'live');
		for (const [spawn, at] of [
			['first', 510],
			['second', 540],
			['late', 700]
		] as const) {
			const body = {
				...{ spawn, brood: `${spawn}-young`, line: 'live', room: 'harbour', inGroup: 'her', sort: 'drop' },
				...{ fathers: parents([], true), mothers: parents([['her', 'seen']]) },
				...{ stage: 'free-swimming', fish: fish(0, 0, 10), certainty: 'counted' }
			};
			club.say('harbour-keeper', 'spawn/seen', at, body, [spawn]);
		}
		const kinship = new KinshipOfGroups(club.fold().state, 'live');
		expectClose(kinship.between(['first-young'], ['second-young']).expected, 1 / 4, exact);
		// Later than that it is another stranger: half brothers and sisters.
		expectClose(kinship.between(['first-young'], ['late-young']).expected, 1 / 8, exact);
	});
});
