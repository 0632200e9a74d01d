import { kinshipWords } from '#genetics/words/kinshipWords.ts';
import { nextMating, type NextMating } from '#genetics/words/nextMating.ts';
import { groupInLine } from '#club/groups/groupInLine.ts';
import { isStanding } from '#club/lines/holdings.ts';
import type { ThingId } from '#records/entry.ts';
import { addFish, howManyFish, noFish } from '#records/fishCount.ts';
import type { ClubState, Fish, Group } from '#records/state.ts';
import { drawnBetween, drawnDifferent } from './figures/weighing.ts';
import { figureWords, openWords, type FigureWithWhy } from './figureWords.ts';
import { KinshipOfGroups } from './kinshipOfGroups.ts';

/** Fish of one sex in a group. */
export interface FishOfSex {
	readonly group: ThingId;
	readonly name: string;
	/** When the group began, ms since 1970; null = not said. */
	readonly at: number | null;
	readonly tank: string;
	readonly fish: number;
	/** Nobody has told the sexes apart: some of them, as far as anyone knows. */
	readonly unsexed: boolean;
}
export interface FishOfGroup {
	readonly group: ThingId;
	readonly fish: Fish;
}
export interface PairingRow {
	readonly males: FishOfSex;
	readonly females: FishOfSex;
	/** Inbreeding that their young would have. */
	readonly figure: Omit<FigureWithWhy, 'open'>;
	readonly words: string;
	readonly tier: NextMating['tier'];
	/** "As close as cousins: 0.06, between 0.03 and 0.13, because …." */
	readonly sentence: string;
	/** Other males for these females, the least related first: kinship as expected, and what it could be. */
	readonly others: readonly {
		readonly males: FishOfSex;
		readonly kinship: number;
		readonly least: number;
		readonly greatest: number;
		readonly words: string;
	}[];
}
export interface TakeFromBrood {
	readonly brood: ThingId;
	readonly name: string;
	/** As many sons and as many daughters as this from each brood. */
	readonly each: number;
	readonly sentence: string;
}
export interface LeftOut {
	readonly group: ThingId;
	readonly name: string;
	readonly why: 'closed tank' | 'suspected mix' | 'quarantine' | 'too young';
	readonly sentence: string;
}
export interface PairingAdvice {
	readonly line: ThingId;
	readonly room: ThingId;
	/** One row for each group with females: the males least related to them, each used as evenly as can be. */
	readonly pairs: readonly PairingRow[];
	/** Even use: what to keep of each brood that is growing up, so that every brood gives the same. */
	readonly take: readonly TakeFromBrood[];
	readonly leftOut: readonly LeftOut[];
	/** Why there are no pairs; '' = there are. */
	readonly none: string;
	/** All that can be paired here are close: in a small line that may be unavoidable. */
	readonly leastBadOnly: boolean;
}

/** A male of a group already chosen is worth taking again only if he is this much less related. Own choice. */
const priceOfUse = 0.02;
const dayMs = 86_400_000;

/**
 * Pairing advice: which males of a room should breed with which females?
 *
 * For each group with females, the group with males whose young would be least inbred; a group that was chosen before
 * counts as a little more related for each use, so that all males are used where that costs next to nothing. Closed
 * tanks, quarantine and suspected mixes are left out and named. From each brood the same number of sons and daughters
 * is to be kept: unequal families are what loses variety fastest.
 * Source: least related pairs: Ballou & Lacy (1995) in Population Management for Survival and Recovery (from memory);
 * equal numbers from each family: Wang (1997), Genetical Research 70 (from memory). Order and price: own choice.
 * Cost: the line's table, and a pass over it for each pair that is advised.
 */
export function pairingAdvice(
	state: ClubState,
	ask: {
		readonly line: ThingId;
		readonly room: ThingId;
		readonly now: number;
		readonly kinship?: KinshipOfGroups;
		/** Fish of other rooms' groups that come, and of own groups that go: the advice is for after that. */
		readonly coming?: readonly FishOfGroup[];
		readonly going?: readonly FishOfGroup[];
	}
): PairingAdvice {
	const kinship = ask.kinship ?? new KinshipOfGroups(state, ask.line);
	const nameOf = (id: ThingId) => groupInLine(state, id);
	const here = [...new Set(state.groups.values())]
		.flatMap((group) => afterwards(group, ask.room, ask.coming ?? [], ask.going ?? []))
		.filter((group) => group.line === ask.line && isStanding(group))
		.filter((group) => kinship.knows(group.id))
		.sort((a, b) => (a.started?.when.last ?? 0) - (b.started?.when.last ?? 0) || (a.id < b.id ? -1 : 1));
	const leftOut = here.flatMap((group) => leftOutWhy(group, nameOf(group.id), ask.now));
	const free = here.filter((group) => !leftOut.some((out) => out.group === group.id));
	const males = free.flatMap((group) => ofSex(group, nameOf(group.id), 'males'));
	const females = free.flatMap((group) => ofSex(group, nameOf(group.id), 'females'));
	const used = new Map<ThingId, number>();
	const pairs = females.map((mothers) => {
		const ranked = males
			.map((fathers) => ({ fathers, weighing: weighingOf(kinship, fathers, mothers) }))
			.filter(({ fathers }) => fathers.group !== mothers.group || canBreedAlone(here, mothers.group))
			.map((one) => {
				const { expected, least, greatest } = kinship.bounded(one.weighing);
				return { ...one, kinship: expected, least, greatest };
			})
			.sort((a, b) => a.kinship - b.kinship || (a.fathers.group < b.fathers.group ? -1 : 1));
		const price = (group: ThingId) => (used.get(group) ?? 0) * priceOfUse;
		const best = ranked.reduce<(typeof ranked)[number] | null>(
			(found, one) =>
				!found || one.kinship + price(one.fathers.group) < found.kinship + price(found.fathers.group)
					? one
					: found,
			null
		);
		if (!best) return null;
		used.set(best.fathers.group, (used.get(best.fathers.group) ?? 0) + 1);
		const { open, ...figure } = kinship.figure(best.weighing);
		const why = open[0] ? openWords(state, kinship.events, open[0]) : '';
		const said = kinshipWords(figure.expected);
		return {
			...{ males: best.fathers, females: mothers, words: said.words },
			figure: { ...figure, why },
			tier: nextMating(figure.expected).tier,
			sentence: figureWords({ ...figure, open, why }, said.words, false),
			others: ranked
				.filter((one) => one !== best)
				.map((one) => ({
					...{ males: one.fathers, kinship: one.kinship, least: one.least, greatest: one.greatest },
					words: kinshipWords(one.kinship).words
				}))
		};
	});
	const found = pairs.filter((pair) => pair !== null);
	return {
		...{ line: ask.line, room: ask.room, pairs: found, leftOut },
		take: takeEvenly(free, nameOf),
		none: found.length ? '' : whyNone(here.length, males.length, females.length),
		leastBadOnly: found.length > 0 && found.every((pair) => pair.tier !== 'fine')
	};
}

/** What of a group will be in the room: fish that come have had their quarantine by the time they breed. */
function afterwards(
	group: Group,
	room: ThingId,
	coming: readonly FishOfGroup[],
	going: readonly FishOfGroup[]
): Group[] {
	const sum = (fish: readonly FishOfGroup[]) =>
		fish.filter((one) => one.group === group.id).reduce((all, one) => addFish(all, one.fish), noFish);
	const certainty = group.now.certainty === 'not known' ? ('about' as const) : group.now.certainty;
	if (group.room !== room) {
		const fish = sum(coming);
		if (howManyFish(fish) === 0) return [];
		return [{ ...group, quarantine: null, now: { ...group.now, fish, certainty } }];
	}
	const gone = sum(going);
	if (howManyFish(gone) === 0) return [group];
	const left = addFish(group.now.fish, gone, -1);
	const fish = {
		males: Math.max(0, left.males),
		females: Math.max(0, left.females),
		unsexed: Math.max(0, left.unsexed)
	};
	return [{ ...group, now: { ...group.now, fish, certainty } }];
}

function leftOutWhy(group: Group, name: string, now: number): LeftOut[] {
	const out = (why: LeftOut['why'], sentence: string) => [{ group: group.id, name, why, sentence }];
	if (group.closed) return out('closed tank', `${name}: its tank is closed.`);
	if (group.mixes.length > 0)
		return out('suspected mix', `${name}: strangers may be among these fish. Settle that first.`);
	if (group.quarantine && group.quarantine.untilMs > now) {
		const days = Math.ceil((group.quarantine.untilMs - now) / dayMs);
		return out('quarantine', `${name}: in quarantine for ${days} more ${days === 1 ? 'day' : 'days'}.`);
	}
	if (isYoung(group)) return out('too young', `${name}: still growing up.`);
	return [];
}

const youngStages = new Set(['laid', 'eyed', 'hatched', 'free-swimming', 'eggs in peat']);
function isYoung(group: Group): boolean {
	return group.stage !== null && youngStages.has(group.stage);
}

function ofSex(group: Group, name: string, sex: 'males' | 'females'): FishOfSex[] {
	const { fish } = group.now;
	const told = { group: group.id, name, at: group.started?.when.first ?? null, tank: group.tank };
	if (fish[sex] > 0) return [{ ...told, fish: fish[sex], unsexed: false }];
	// With both sexes told apart, what is left unsexed is not counted on.
	const other = sex === 'males' ? fish.females : fish.males;
	return fish.unsexed > 1 && other === 0 ? [{ ...told, fish: fish.unsexed, unsexed: true }] : [];
}

/** A group can be paired with itself when it has both sexes, or enough fish that nobody has sexed. */
function canBreedAlone(here: readonly Group[], id: ThingId): boolean {
	const fish = here.find((group) => group.id === id)?.now.fish;
	return fish !== undefined && ((fish.males > 0 && fish.females > 0) || fish.unsexed > 1);
}

function weighingOf(kinship: KinshipOfGroups, fathers: FishOfSex, mothers: FishOfSex) {
	const ours = unitsOf(kinship, fathers, 'males');
	const theirs = unitsOf(kinship, mothers, 'females');
	const isSame = ours.length === 1 && theirs.length === 1 && ours[0]!.unit === theirs[0]!.unit;
	return isSame ? drawnDifferent(ours) : drawnBetween(ours, theirs);
}

function unitsOf(kinship: KinshipOfGroups, { group }: FishOfSex, sex: 'males' | 'females') {
	const units = kinship.events.units.get(group) ?? [];
	const ofSexed = units.filter((unit) => unit.endsWith(`/${sex}`));
	return kinship.countedOf(ofSexed.length ? ofSexed : units);
}

function takeEvenly(groups: readonly Group[], nameOf: (id: ThingId) => string): TakeFromBrood[] {
	const broods = groups.filter((group) => group.origin.from === 'brood');
	const smallest = Math.min(
		...broods.map(({ now: { fish } }) =>
			fish.unsexed > 0
				? Math.floor((fish.males + fish.females + fish.unsexed) / 2)
				: Math.min(fish.males, fish.females)
		)
	);
	const each = Math.max(1, Math.min(2, smallest));
	return broods.map((group) => ({
		...{ brood: group.id, name: nameOf(group.id), each },
		sentence: `${nameOf(group.id)}: keep ${each} ${each === 1 ? 'son' : 'sons'} and ${each} ${each === 1 ? 'daughter' : 'daughters'} to breed from, as from every brood.`
	}));
}

function whyNone(here: number, males: number, females: number): string {
	if (here === 0) return 'This room has no fish of this line.';
	if (males === 0 && females === 0) return 'No fish here are free to breed now.';
	if (females === 0) return 'No females are free to breed here now.';
	return males === 0 ? 'No males are free to breed here now.' : 'No pair can be made of these fish.';
}
