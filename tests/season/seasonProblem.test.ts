import { describe, expect, it } from 'vitest';
import { shuffled } from '#tests/helpers/randomHistory.ts';
import { expectClose } from '#tests/helpers/expectClose.ts';
import { dateIn, fish, holdingOf, roomOf, SeasonClub, sourceOf, whyOut } from './seasonClub.ts';

/** Two holders of one line and nothing else. */
function small(): SeasonClub {
	return new SeasonClub()
		.line('blue')
		.group('colony', 'harbour', 'blue', fish(5, 7))
		.group('trio', 'mill', 'blue', fish(1, 2));
}

describe('what can be spared', () => {
	it('is what was offered, as long as the offer lasts and no more than are there', () => {
		const club = small().spare('trio', 'mill', fish(1, 5), dateIn(3));
		const asked = club.asked();
		expect(sourceOf(asked, 'trio')?.spare).toEqual(fish(1, 2));
		expect(asked.words.sources.find(({ group }) => group === 'trio')?.spareWhy).toBe('offered');
		expect(sourceOf(club.asked({ until: dateIn(4) }), 'trio')).toBeUndefined();
	});

	it('is else what is beyond two males and three females, or six not sexed', () => {
		const asked = small()
			.group('young', 'mill', 'blue', fish(0, 0, 15))
			.asked();
		expect(sourceOf(asked, 'colony')?.spare).toEqual(fish(3, 4));
		expect(sourceOf(asked, 'young')?.spare).toEqual(fish(0, 0, 9));
		expect(whyOut(asked, 'trio')).toEqual([
			'trio tank: no fish to spare without giving up its breeding group.'
		]);
	});

	it('is less what open exchanges promise, by name of the group or not; a declined one promises nothing', () => {
		const club = small().propose('x', 'blue', 'harbour', 'colony', fish(2, 0), 'mill');
		expect(sourceOf(club.asked(), 'colony')?.spare).toEqual(fish(1, 4));
		club.propose('y', 'blue', 'harbour', null, fish(1, 4), 'mill');
		expect(whyOut(club.asked(), 'colony')).toEqual(['colony tank: what it can spare is promised already.']);
		club.answer('x', 'blue', 'harbour', 'no').answer('y', 'blue', 'mill', 'no');
		expect(sourceOf(club.asked(), 'colony')?.spare).toEqual(fish(3, 4));
	});
});

describe('what gives nothing, and why', () => {
	it('a closed tank, a closed room', () => {
		const club = small().group('more', 'harbour', 'blue', fish(5, 5));
		club.say('harbour-keeper', 'group/closed', { group: 'more', room: 'harbour', reason: '' }, 1);
		expect(whyOut(club.asked(), 'more')).toEqual(['more tank: its tank is closed.']);
		expect(sourceOf(club.asked(), 'colony')).toBeDefined();
		club.say('harbour-keeper', 'room/closed', { room: 'harbour', reason: '' }, 1);
		const asked = club.asked();
		expect(roomOf(asked, 'harbour')?.isClosed).toBe(true);
		expect(whyOut(asked, 'colony')).toEqual(['Harbour room is closed: nothing in or out.']);
	});

	it('quarantine on the day of the bags, not one that has ended by then', () => {
		const club = small().meeting(18);
		const until = (days: number) => ({ group: 'colony', room: 'harbour', until: dateIn(days), reason: '' });
		club.say('harbour-keeper', 'group/quarantineSet', until(10), 2);
		expect(whyOut(club.asked(), 'colony')).toEqual([`colony tank: in quarantine until 6 December 2026.`]);
		expect(sourceOf(club.asked({ meeting: 'winter' }), 'colony')).toBeDefined();
		club.say('harbour-keeper', 'group/quarantineSet', until(30), 1);
		expect(sourceOf(club.asked({ meeting: 'winter' }), 'colony')).toBeUndefined();
	});

	it('a suspected mix, young that grow up, a group nobody counted, one that was left out', () => {
		const club = small()
			.group('fry', 'harbour', 'blue', fish(0, 0, 40), { stage: 'hatched' })
			.group('unseen', 'harbour', 'blue', fish(0, 0), { certainty: 'about' });
		const mix = { group: 'colony', room: 'harbour', line: 'blue', sort: 'jumped', what: '' };
		expect(whyOut(club.asked(), 'fry')).toEqual(['fry tank: still growing up.']);
		expect(whyOut(club.asked(), 'unseen')).toEqual(['unseen tank: nobody has counted these fish.']);
		expect(whyOut(club.asked({ notFrom: ['colony'] }), 'colony')).toEqual(['colony tank: you left it out.']);
		club.say('harbour-keeper', 'group/mixed', mix, 1);
		expect(whyOut(club.asked(), 'colony')).toEqual([
			'colony tank: strangers may be among these fish. Settle that first.'
		]);
	});

	it('a room that shared a bag with a closed tank less than six weeks before the day', () => {
		const club = small().group('seed', 'orchard', 'blue', fish(6, 6));
		club.bag('b', 'orchard', 'mill', 'seed', 'blue', fish(1, 1), 30);
		expect(roomOf(club.asked(), 'mill')?.isClosed).toBe(false);
		club.say('orchard-keeper', 'group/closed', { group: 'seed', room: 'orchard', reason: '' }, 3);
		const asked = club.asked();
		expect(roomOf(asked, 'mill')?.isClosed).toBe(true);
		expect(asked.words.rooms.find(({ id }) => id === 'mill')?.stop).toBe(
			'Mill room shared a bag with Orchard room on 27 October 2026, where a tank is closed: nothing in or out before 8 December 2026.'
		);
		expect(roomOf(club.asked({ until: dateIn(14) }), 'mill')?.isClosed).toBe(false);
		expect(roomOf(asked, 'harbour')?.isClosed).toBe(false);
	});

	it('a room that gave to what is closed now', () => {
		const club = small();
		club.bag('b', 'harbour', 'mill', 'colony', 'blue', fish(1, 1), 10);
		club.say('mill-keeper', 'room/closed', { room: 'mill', reason: '' }, 1);
		expect(roomOf(club.asked(), 'harbour')?.isClosed).toBe(true);
	});

	it('a room that drops out, as asked', () => {
		const asked = small().asked({ without: ['mill'] });
		expect(roomOf(asked, 'mill')?.isClosed).toBe(true);
		expect(asked.words.rooms.find(({ id }) => id === 'mill')?.stop).toBe(
			'Mill room: you left it out of this plan.'
		);
	});
});

describe('who plans', () => {
	it('knows which rooms are the member’s own, and what to tell of a line before its fish move', () => {
		const { words } = small().asked({}, 'mill-keeper');
		expect(words.rooms.filter(({ mine }) => mine).map(({ id }) => id)).toEqual(['mill']);
		expect(words.lines.map(({ movement, sendsAll }) => [movement, sendsAll])).toEqual([['none', false]]);
		expect(
			small()
				.asked({}, 'cora')
				.words.rooms.some(({ mine }) => mine)
		).toBe(false);
	});

	it('finds which lines each room holds or asks for', () => {
		const club = small().want('blue', 'attic', 30);
		const { rooms } = club.start('cora');
		const of = (room: string) => rooms.find(({ id }) => id === room)?.lines;
		expect(['harbour', 'mill', 'attic', 'orchard'].map(of)).toEqual([['blue'], ['blue'], ['blue'], []]);
	});
});

describe('people not to be paired', () => {
	it('keeps all rooms of one apart from all of the other, only where the words can be read', () => {
		const club = small();
		const words = club.notToPair(['harbour-keeper', 'mill-keeper']);
		const { problem } = club.asked();
		expect(problem.apart.map((pair) => pair.map((room) => problem.rooms[room]!.id))).toEqual([
			['harbour', 'mill']
		]);
		expect(club.asked({}, 'mill-keeper').problem.apart).toEqual([]);
		expect(JSON.stringify(club.asked().words)).not.toContain('quarrel');
		club.notToPair([], { corrects: [words] });
		expect(club.asked().problem.apart).toEqual([]);
	});
});

describe('the waiting list', () => {
	it('rooms that raise the number of holders first, then who asked first', () => {
		const club = small()
			.group('pair', 'lower', 'blue', fish(1, 1))
			.want('blue', 'upper', 90)
			.want('blue', 'orchard', 20)
			.want('blue', 'attic', 30);
		const asked = club.asked();
		const place = (room: string) => asked.problem.holdings[holdingOf(asked, 'blue', room)]?.waiting;
		expect(['attic', 'orchard', 'upper', 'harbour'].map(place)).toEqual([0, 1, 2, -1]);
		expect(asked.words.holdings[holdingOf(asked, 'blue', 'attic')]?.waitingSince).toBe(dateIn(-30));
		expect(asked.words.holdings[holdingOf(asked, 'blue', 'upper')]?.raisesHolders).toBe(false);
	});

	it('a line with one room only should get a second, where somebody waits', () => {
		const club = new SeasonClub().line('blue').group('colony', 'harbour', 'blue', fish(6, 7));
		expect(club.asked().problem.wishes).toEqual([]);
		const { problem } = club.want('blue', 'orchard', 20).asked();
		expect(problem.wishes).toEqual([{ id: 'holders:blue', wish: 'holders', line: 0, least: 2 }]);
		expect(problem.lines[0]).toMatchObject({ holders: 1, wantedHolders: 5 });
	});
});

describe('trips', () => {
	it('one house nothing, one region near, another a drive, not said a drive, far as set', () => {
		const club = small()
			.group('a', 'orchard', 'blue', fish(2, 3))
			.group('b', 'attic', 'blue', fish(2, 3))
			.group('c', 'lower', 'blue', fish(2, 3))
			.group('d', 'upper', 'blue', fish(2, 3));
		const cost = (one: string, other: string, asked = club.asked()) => {
			const at = (id: string) => asked.problem.rooms.findIndex((room) => room.id === id);
			return [asked.problem.tripCost[at(one)]![at(other)], asked.problem.tripCost[at(other)]![at(one)]];
		};
		expect(cost('lower', 'upper')).toEqual([0, 0]);
		expect(cost('harbour', 'mill')).toEqual([1, 1]);
		expect(cost('harbour', 'orchard')).toEqual([2, 2]);
		expect(cost('harbour', 'attic')).toEqual([2, 2]);
		club.far('Hills', 'Coast');
		expect(cost('harbour', 'orchard')).toEqual([5, 5]);
		club.far('Coast', 'Hills', false);
		expect(cost('harbour', 'orchard')).toEqual([2, 2]);
	});

	it('the meeting covers it where both come: as said, as the planner knows, or as counted on', () => {
		const club = small().group('a', 'orchard', 'blue', fish(2, 3)).meeting().attends('orchard', false);
		const cost = (settings: object) => {
			const { problem } = club.asked({ meeting: 'winter', ...settings });
			const at = (id: string) => problem.rooms.findIndex((room) => room.id === id);
			return [problem.tripCost[at('harbour')]![at('mill')], problem.tripCost[at('harbour')]![at('orchard')]];
		};
		expect(cost({})).toEqual([0, 2]);
		expect(cost({ notSaidCounts: false })).toEqual([1, 2]);
		expect(cost({ comes: { orchard: true } })).toEqual([0, 0]);
		club.attends('harbour', true).attends('mill', true);
		expect(cost({ notSaidCounts: false })).toEqual([0, 2]);
	});
});

describe('limits and wishes', () => {
	it('places of the settings, less what open exchanges for the same meeting take', () => {
		const club = small().propose('x', 'blue', 'harbour', 'colony', fish(1, 0), 'mill');
		expect(roomOf(club.asked(), 'harbour')).toMatchObject({ bagsOut: 2, bagsIn: 2, tanksFree: 2 });
		expect(roomOf(club.asked(), 'mill')).toMatchObject({ bagsOut: 3, bagsIn: 1, tanksFree: 1 });
		const limits = { mill: { bagsOut: 0, bagsIn: 4, tanksFree: 1 } };
		expect(roomOf(club.asked({ limits }), 'mill')).toMatchObject({ bagsOut: 0, bagsIn: 3, tanksFree: 1 });
	});

	it('bags of the last year stand in the balance', () => {
		const club = small().bag('b', 'harbour', 'mill', 'colony', 'blue', fish(1, 0), 100);
		club.bag('old', 'harbour', 'mill', 'colony', 'blue', fish(1, 0), 400);
		expect([roomOf(club.asked(), 'harbour')?.balance, roomOf(club.asked(), 'mill')?.balance]).toEqual([
			1, -1
		]);
	});

	it('wishes have ids that say what they are', () => {
		const asked = small().asked({
			...{ tripsAtMost: 2, bagsAtMost: 5, fair: true, locked: ['k'], holdersAtLeast: { blue: 3 } },
			newBloodFor: [['blue', 'mill']]
		});
		expect(asked.problem.wishes.map(({ id }) => id)).toEqual([
			...['holders:blue', 'newBlood:blue:mill', 'bag:k', 'trips', 'bags', 'fair']
		]);
	});

	it('one sex alone travels, and a declined group does not go there again', () => {
		const club = small();
		const males = club.asked({ sexes: 'males' }).problem.banned;
		expect(males.length).toBeGreaterThan(0);
		expect(males.every((key) => /:0\.[1-9]\d*\.0$/.test(key))).toBe(true);
		const banned = club.asked({ declined: [{ group: 'colony', room: 'mill' }] }).problem.banned;
		expect(banned.length).toBe(2);
		expect(banned.every((key) => key.startsWith('blue@mill<colony:'))).toBe(true);
	});
});

describe('kinship', () => {
	it('of young of unrelated founders: full brothers and sisters 1/4, with their parents 1/4 (Wright 1922)', () => {
		const club = small();
		const one = (group: string) => ({ of: [{ group, standing: 'seen' }], others: false, number: 'one' });
		club.group('he', 'orchard', 'blue', fish(1, 0)).group('she', 'orchard', 'blue', fish(0, 1));
		const body = { spawn: 's', brood: 'young', line: 'blue', room: 'orchard', inGroup: null, sort: 'drop' };
		const more = { fathers: one('he'), mothers: one('she'), stage: 'adult', certainty: 'counted' };
		club.say('orchard-keeper', 'spawn/seen', { ...body, ...more, fish: fish(6, 6) }, 50);
		club.group('cousin', 'mill', 'blue', fish(3, 4));
		const asked = club.asked({ lines: ['blue'] });
		const young = sourceOf(asked, 'young')!;
		expectClose(young.within.expected, 0.25, { abs: 1e-12 });
		const mill = holdingOf(asked, 'blue', 'mill');
		expectClose(young.withFemales[mill]!.expected, 0, { abs: 1e-12 });
		expect(young.withSources[asked.problem.sources.indexOf(young)]).toEqual(young.within);
	});

	it('the matrix is symmetric and no weighting of it is below 0', () => {
		const club = small().group('young', 'mill', 'blue', fish(0, 0, 15));
		const { kinship } = club.asked().problem.lines[0]!;
		expect(kinship).toEqual(kinship.map((_, i) => kinship.map((row) => row[i])));
		const weights = kinship.map((_, i) => (i % 2 ? 1 : -1) * (1 + i / 3));
		const form = kinship.reduce(
			(sum, row, i) => sum + row.reduce((part, k, j) => part + weights[i]! * weights[j]! * k, 0),
			0
		);
		expect(form).toBeGreaterThanOrEqual(0);
	});

	it('fish of unknown origin are taken as cousins, perhaps brother and sister', () => {
		const asked = small()
			.group('found', 'orchard', 'blue', fish(6, 6), { origin: { from: 'not known' } })
			.asked();
		const found = sourceOf(asked, 'found')!;
		expect(found.withFemales[holdingOf(asked, 'blue', 'mill')]).toEqual({
			...{ expected: 1 / 16, least: 0, greatest: 1 / 4 }
		});
		expect(asked.words.sources.find(({ group }) => group === 'found')?.unknownOrigin).toBe(true);
	});
});

describe('the same record gives the same problem', () => {
	it.each([1, 2, 3, 4, 5, 6])('whatever the order of arrival (seed %i)', (seed) => {
		const club = small()
			.line('gold')
			.group('seed', 'orchard', 'gold', fish(6, 6))
			.group('more', 'upper', 'gold', fish(2, 3, 9))
			.group('found', 'attic', 'blue', fish(4, 6), { origin: { from: 'not known' } })
			.want('blue', 'orchard', 40)
			.want('gold', 'mill', 20)
			.meeting()
			.attends('mill', true)
			.spare('more', 'upper', fish(1, 1))
			.propose('x', 'blue', 'harbour', 'colony', fish(1, 0), 'mill');
		club.bag('b', 'orchard', 'upper', 'seed', 'gold', fish(1, 1), 80);
		const settings = { meeting: 'winter', sexes: 'males' as const };
		const other = club.fold((inputs) => shuffled(inputs, seed));
		expect(club.asked(settings, 'officer', other)).toEqual(club.asked(settings));
		expect(club.asked(settings).problem.sources.length).toBeGreaterThan(3);
	});
});
