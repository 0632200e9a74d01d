/** Crosses on purpose, from the wish to the marked young. */
import loadHighs, { type Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { forCross } from '#club/groups/forCross.ts';
import { groupPage } from '#club/groups/groupPage.ts';
import { crossesOf } from '#club/lines/crossesOf.ts';
import { crossRule, type Crossing } from '#club/lines/crossRule.ts';
import { crossedGroups } from '#club/lines/crossedGroups.ts';
import { holdings } from '#club/lines/holdings.ts';
import { lineState } from '#club/lines/lineState.ts';
import { otherGroupsOf } from '#club/spawns/possibleParents.ts';
import { lineEvents } from '#pedigree/lineEvents.ts';
import { planSeason } from '#planning/season/planSeason.ts';
import { bagSentence } from '#season/bagSentence.ts';
import { proposalsOf } from '#season/proposalsOf.ts';
import { dateIn, fish, SeasonClub, today } from './seasonClub.ts';

let solver: Highs;
beforeAll(async () => {
	solver = await loadHighs();
});

const rules = {
	targetRooms: 5,
	confirmedDays: 180,
	ageingDays: 90,
	neverCrossWith: '',
	spareToPublic: false
};
const twoLines = () =>
	new SeasonClub()
		.line('blue')
		.line('gold')
		.group('blues', 'harbour', 'blue', fish(4, 5))
		.group('golds', 'mill', 'gold', fish(6, 4));
const cross = ['gold', 'blue', 'harbour'] as const;

/** Males of gold came to the harbour room for a cross, and a brood was seen since. */
function crossed(outcross: string | null = 'blue', standing = 'seen'): SeasonClub {
	const club = twoLines();
	club.propose('x', 'gold', 'mill', 'golds', fish(2, 0), 'harbour', { outcross });
	const to = { to: 'room', room: 'harbour' };
	const contents = [{ group: 'golds', fish: fish(2, 0) }];
	const bag = { bag: 'b', number: '', line: 'gold', contents, fromRoom: 'mill', note: '' };
	club.say('mill-keeper', 'bag/bagged', { ...bag, to, meeting: null, exchange: 'x' }, 40);
	const arrived = { bag: 'b', room: 'harbour', group: 'visitors', line: 'gold', alive: fish(2, 0), dead: 0 };
	club.say('harbour-keeper', 'bag/arrived', { ...arrived, certainty: 'counted', tank: '' }, 40);
	const spawn = { spawn: 's', brood: 'young', line: 'blue', room: 'harbour', inGroup: null, sort: 'drop' };
	const one = (group: string) => ({ of: [{ group, standing }], others: false, number: 'one' });
	const parents = { mothers: one('blues'), fathers: one('visitors') };
	const seen = { ...spawn, ...parents, stage: 'free-swimming', certainty: 'counted', fish: fish(0, 0, 20) };
	club.say('harbour-keeper', 'spawn/seen', seen, 10);
	return club;
}

describe('a cross that was planned', () => {
	it('goes to that room by a bag of the other line; every other bag across lines is none', () => {
		const asked = twoLines().asked({ outcrosses: [cross] });
		const { bags, givenUp } = planSeason(asked.problem, { solver, seconds: 20 });
		expect(givenUp).toEqual([]);
		const lineOf = (source: number) => asked.problem.lines[asked.problem.sources[source]!.line]!.id;
		const across = bags.filter((bag) => lineOf(bag.gives[0]!.source) !== asked.problem.lines[bag.line]!.id);
		expect(across).toHaveLength(1);
		expect(asked.problem.rooms[asked.problem.holdings[across[0]!.holding]!.room]!.id).toBe('harbour');
		expect(twoLines().asked().problem.outcrosses).toEqual([]);
	});

	it('is proposed as fish of their own line that are to be crossed, and says what becomes of the young', () => {
		const asked = twoLines().asked({ outcrosses: [cross] });
		const plan = planSeason(asked.problem, { solver, seconds: 20 });
		const [bag] = plan.bags;
		expect(bagSentence(asked, plan, bag!)).toMatchObject({
			short: expect.stringContaining('of GOLD to cross with BLUE: Mill room to Harbour room') as string,
			notes: expect.stringContaining('Their young are no longer pure blue guppy') as string
		});
		const [draft] = proposalsOf(asked, plan, [bag!], {
			...{ plan: { id: 'p', name: 'Winter' }, meeting: null, asked: true, happened: dateIn(0) },
			newId: () => 'x'
		});
		expect(draft!.body).toMatchObject({ line: 'gold', outcross: 'blue', toRoom: 'harbour' });
		expect(draft!.about).toEqual(expect.arrayContaining(['gold', 'blue', 'harbour', 'mill']));
	});

	it('only for who may plan both lines, where neither line’s rules forbid it', () => {
		expect(twoLines().asked({ outcrosses: [cross] }, 'cora').problem.outcrosses).toEqual([]);
		const club = twoLines();
		club.say('officer', 'line/rulesSet', { line: 'gold', rules: { ...rules, neverCrossWith: 'Blue' } }, 5);
		expect(club.asked({ outcrosses: [cross] }).problem.outcrosses).toEqual([]);
		const into = club.start('officer').lines.find(({ id }) => id === 'blue');
		expect(into?.crossFrom).toEqual([]);
		expect(into?.crossNot[0]?.why).toContain('never cross with “Blue”');
	});
});

describe('fish that came for a cross', () => {
	it('are no holding of their line and give nothing on, but may be parents in the other line', () => {
		const { state } = crossed().fold();
		const gold = state.lines.get('gold')!;
		expect(forCross(state, state.groups.get('visitors')!)).toBe('blue');
		expect(forCross(state, state.groups.get('golds')!)).toBeNull();
		expect(lineState(gold, holdings(state, gold, today), today).confirmed).toBe(1);
		expect(otherGroupsOf(state, 'harbour', 'blue', []).map(({ id }) => id)).toContain('visitors');
		const plain = crossed(null).fold().state;
		expect(lineState(gold, holdings(plain, plain.lines.get('gold')!, today), today).confirmed).toBe(2);
		expect(otherGroupsOf(plain, 'harbour', 'blue', []).map(({ id }) => id)).not.toContain('visitors');
	});
});

describe('young of a cross', () => {
	it('are marked from the day of the spawn, with how sure that is; what was there before stays pure', () => {
		const { state } = crossed().fold();
		const found = crossedGroups(state, 'blue');
		expect([...found.keys()]).toEqual(['young']);
		expect(found.get('young')).toMatchObject({ with: ['gold'], sure: true, onPurpose: true });
		const [told] = crossesOf(state, 'blue');
		expect(told).toMatchObject({ withName: 'gold guppy', since: dateIn(-10), onPurpose: true });
		expect(told?.groups.map(({ id }) => id)).toEqual(['young']);
		expect([...crossedGroups(state, 'gold')]).toEqual([]);
	});

	it('a cross that no exchange spoke of is told, not as on purpose; a father who is one of several, as perhaps', () => {
		const stray = crossedGroups(crossed(null).fold().state, 'blue').get('young');
		expect(stray).toMatchObject({ sure: true, onPurpose: false });
		const club = crossed();
		const of = ['visitors', 'blues'].map((group) => ({ group, standing: 'possible' }));
		const mothers = { of: [{ group: 'blues', standing: 'seen' }], others: false, number: 'one' };
		const said = { spawn: 's', room: 'harbour', mothers, fathers: { of, others: false, number: 'one' } };
		club.say('harbour-keeper', 'spawn/parentsSaid', said, 5);
		expect(crossedGroups(club.fold().state, 'blue').get('young')).toMatchObject({ sure: false });
	});

	it('their group’s page says so, and their kinship has parents of both lines', () => {
		const club = crossed();
		const fold = club.fold();
		const page = groupPage(fold.state, { group: 'young' }, club.asking(fold));
		expect(page?.crossed).toEqual({ with: 'gold guppy', sure: true, since: dateIn(-10) });
		expect(groupPage(fold.state, { group: 'visitors' }, club.asking(fold))?.crossWith).toBe('blue guppy');
		const { events } = lineEvents(fold.state, 'blue');
		const founders = events.flatMap((event) => (event.kind === 'founders' ? [event.unit] : []));
		expect(founders.some((unit) => unit.startsWith('golds'))).toBe(true);
	});
});

describe('the rules on crossing', () => {
	const blue: Crossing = {
		...{ code: 'TIDE-1', name: 'Tidewater Blue', kind: 'strain', fishGroup: 'guppy' },
		...{ taxonVerbatim: 'Poecilia reticulata', taxonTidy: '', rules }
	};
	const gold: Crossing = { ...blue, code: 'GOLD-2', name: 'Harbour Gold' };
	const never = (neverCrossWith: string): Crossing => ({ ...blue, rules: { ...rules, neverCrossWith } });

	it.each([
		['Harbour Gold'],
		['gold-2, and others'],
		['any other line'],
		['all other guppies'],
		['Any other Poecilia']
	])('“%s” stops it', (words) => {
		expect(crossRule(gold, never(words)).forbidden).toContain('never cross with');
		expect(crossRule(never(words), gold).forbidden).toContain('never cross with');
	});

	it('what names no line is shown for a person to judge; another kind of fish, or a line kept pure, is not crossed', () => {
		expect(crossRule(gold, never('fish from shops'))).toEqual({
			forbidden: '',
			caution:
				'The rules of Tidewater Blue say: never cross with “fish from shops”. Think first whether that is meant.'
		});
		expect(crossRule(gold, blue)).toEqual({ forbidden: '', caution: '' });
		expect(crossRule({ ...gold, fishGroup: 'corydoras' }, blue).forbidden).toContain('not of one kind');
		expect(crossRule(gold, { ...blue, kind: 'conservation' }).forbidden).toContain('kept pure');
	});
});
