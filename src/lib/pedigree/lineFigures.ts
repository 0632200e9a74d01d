import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Fish, Group } from '#records/state.ts';
import { aheadOf, type AheadStep } from './figures/aheadOf.ts';
import { byGeneration, byYear, type GenerationFigure, type YearFigure } from './figures/courseOf.ts';
import { founderShares, type FounderGroup } from './figures/founderShares.ts';
import { roomsAhead } from './figures/roomsAhead.ts';
import { drawnTwice, meanSelf, meansWithAll, type Counted, type Entries } from './figures/weighing.ts';
import { broodName, openWords, type FigureWithWhy } from './figureWords.ts';
import { generations } from './generations.ts';
import { KinshipOfGroups } from './kinshipOfGroups.ts';
import { livingGroups } from './livingGroups.ts';

/** A figure between its bounds. */
export interface Ranged {
	readonly expected: number;
	readonly least: number;
	readonly greatest: number;
}
/** A group of the line that has fish. */
export interface LivingGroup {
	readonly group: ThingId;
	readonly name: string;
	readonly room: ThingId | null;
	readonly roomName: string;
	/** When it began, ms since 1970; null = not said. */
	readonly at: number | null;
	readonly fish: Fish;
	/** Mean kinship of its fish with all living fish of the line: the least related are worth most. */
	readonly meanKinship: Ranged;
	readonly inbreeding: Ranged;
	readonly generation: number;
	readonly suspectedMix: boolean;
	readonly closed: boolean;
	readonly originUnknown: boolean;
}
export interface FounderShare {
	readonly group: ThingId;
	readonly name: string;
	readonly source: string;
	readonly roomName: string;
	/** When the group began, ms since 1970; null = not said. */
	readonly at: number | null;
	/** Founders in it. */
	readonly fish: number;
	/** Share of the genes of all living fish, 0 to 1: as expected, and what the record leaves open. */
	readonly share: number;
	readonly least: number;
	readonly greatest: number;
	/** The share that it would have if every founder had given the same. */
	readonly evenShare: number;
	readonly originUnknown: boolean;
}
/** What would make the gene diversity surer, and to between which numbers it could then turn out. */
export interface MakesSurer {
	readonly spawn: ThingId | null;
	readonly group: ThingId | null;
	/** "Find out the parents of the brood of March 2026." */
	readonly sentence: string;
	/** Why it is open: "the father of the brood of March 2026 is one of three". */
	readonly why: string;
	/** Gene diversity at the least and at the most, if this were known and all else as expected. */
	readonly least: number;
	readonly greatest: number;
}
export interface LineFigures {
	readonly line: ThingId;
	/** Least related first. Empty = nobody has fish of the line: nothing else can be said. */
	readonly groups: readonly LivingGroup[];
	readonly livingFish: number;
	/** Gene diversity of the living fish: what is left of the founders' variety, 0 to 1; null = no fish. */
	readonly diversity: FigureWithWhy | null;
	/** Mean inbreeding of the living fish. */
	readonly inbreeding: FigureWithWhy | null;
	readonly course: readonly YearFigure[];
	readonly byGeneration: readonly GenerationFigure[];
	readonly founders: readonly FounderShare[];
	/** Share of parents that are not in the record. */
	readonly outsideShare: number;
	readonly founderEquivalents: number | null;
	/** As if from so many founders, 1 / (2 mean kinship): founder genome equivalents. */
	readonly likeFounders: Ranged | null;
	/**
	 * How many breeders the line is like, by how its diversity fell from generation to generation, with sure bounds
	 * (no greatest: perhaps it has not fallen); null = it has not, or there are fewer than two generations.
	 */
	readonly likeBreeders: (Omit<Ranged, 'greatest'> & { readonly greatest: number | null }) | null;
	/** Now and the next ten generations, if every room breeds on with its own fish. */
	readonly ahead: readonly AheadStep[];
	/** Rooms that hold fish but cannot breed them: left out of what lies ahead. */
	readonly roomsLeftOut: number;
	readonly surer: readonly MakesSurer[];
}

const mostSurer = 5;

/**
 * Line figures: how much of its founders' variety does a line still have, how did it fall, and what comes next?
 *
 * All figures come from one table of the line; each range holds whatever the open things turn out to have been, and is
 * exact or a bound as LineKinship says. Weights are the fish of now.
 * Source: gene diversity, founder genome equivalents: Lacy (1995), Zoo Biology 14:565; Caballero & Toro (2000),
 * Genetical Research 75:331; realised effective size: Wright (1931), Genetics 16:97; shares: `groupFounders`.
 * Cost: one table and its bounds, two passes back, and O(groups squared) for the mean kinship of each group.
 *
 * @param kinship of the line, where it is there already
 */
export function lineFigures(
	state: ClubState,
	line: ThingId,
	ask: { readonly now: number; readonly kinship?: KinshipOfGroups }
): LineFigures {
	const kinship = ask.kinship ?? new KinshipOfGroups(state, line);
	const { events } = kinship;
	const generation = generations(events.events);
	const living = livingGroups(state, kinship);
	const all = living.flatMap(({ fish }) => fish);
	const meanWithAll = meansOf(kinship, all);
	const groups = living
		.map(({ group, fish }) => livingGroup(state, kinship, group, fish, meanWithAll, generation))
		.sort((a, b) => a.meanKinship.expected - b.meanKinship.expected || (a.group < b.group ? -1 : 1));
	const twice = all.length ? kinship.withWhy(drawnTwice(all)) : null;
	const course = byGeneration(kinship, generation);
	const shares = all.length ? founderShares(kinship, all) : null;
	const rooms = roomsAhead(
		kinship,
		living.map(({ group }) => group)
	);
	const diversity = twice ? complement(twice) : null;
	return {
		line,
		groups,
		livingFish: all.reduce((sum, { fish }) => sum + fish, 0),
		diversity,
		inbreeding: all.length ? fromSelf(kinship.withWhy(meanSelf(all))) : null,
		course: endingAt(byYear(state, kinship, ask.now, all), ask.now, diversity),
		byGeneration: course,
		founders: shares ? foundersOf(state, kinship, shares.groups) : [],
		outsideShare: shares?.outside.reduce((sum, share) => sum + share, 0) ?? 0,
		founderEquivalents: shares?.founderEquivalents ?? null,
		likeFounders: twice
			? {
					...{ expected: 1 / (2 * twice.expected), least: 1 / (2 * twice.greatest) },
					greatest: 1 / (2 * Math.max(twice.least, 1 / (4 * all.reduce((sum, { fish }) => sum + fish, 0))))
				}
			: null,
		likeBreeders: realisedSize(course),
		ahead: aheadOf(rooms),
		roomsLeftOut: rooms.roomsLeftOut,
		surer: (twice?.open ?? []).slice(0, mostSurer).map((open) => ({
			...{ spawn: open.spawn, group: open.group, why: openWords(state, events, open) },
			sentence: open.spawn
				? `Find out the parents of ${broodName(state, open.spawn)}.`
				: `Find out where the fish of ${namesOf(state, null).group(open.group ?? '')} came from.`,
			...{ least: 1 - open.greatest, greatest: 1 - open.least }
		}))
	};
}

function livingGroup(
	state: ClubState,
	kinship: KinshipOfGroups,
	group: Group,
	fish: readonly Counted[],
	meanWithAll: (fish: readonly Counted[]) => Ranged,
	generation: ReadonlyMap<string, number>
): LivingGroup {
	const names = namesOf(state, null);
	const total = fish.reduce((sum, one) => sum + one.fish, 0);
	const units = events(kinship, group.id);
	return {
		...{ group: group.id, name: names.group(group.id), room: group.room },
		roomName: group.room ? names.room(group.room) : '',
		at: group.started?.when.first ?? null,
		fish: group.now.fish,
		meanKinship: meanWithAll(fish),
		inbreeding: fromSelf(kinship.bounded(meanSelf(fish))),
		generation:
			units.reduce((sum, unit, i) => sum + (generation.get(unit) ?? 0) * (fish[i]?.fish ?? 0), 0) / total,
		suspectedMix: group.mixes.length > 0,
		closed: group.closed !== null,
		originUnknown: [...kinship.forebearsOf(group.id).keys()].some((id) =>
			kinship.events.unknownOrigin.has(id)
		)
	};
}

function events(kinship: KinshipOfGroups, group: ThingId): readonly string[] {
	return kinship.events.units.get(group) ?? [];
}

/** For each unit of the living: the mean kinship of its fish with all living fish. */
function meansOf({ table, bounds }: KinshipOfGroups, all: readonly Counted[]) {
	const by = (entries: Entries) => {
		const means = meansWithAll(entries, all);
		return new Map(all.map(({ unit }, i) => [unit, means[i]!]));
	};
	const [expected, least, greatest] = [by(table), by(bounds.least), by(bounds.greatest)];
	return (fish: readonly Counted[]): Ranged => {
		const total = fish.reduce((sum, one) => sum + one.fish, 0);
		const mean = (of: ReadonlyMap<number, number>) =>
			fish.reduce((sum, one) => sum + (one.fish * (of.get(one.unit) ?? 0)) / total, 0);
		const of = mean(expected);
		return { expected: of, least: Math.min(of, mean(least)), greatest: Math.max(of, mean(greatest)) };
	};
}

function complement(figure: FigureWithWhy): FigureWithWhy {
	const { oneKnown } = figure;
	return {
		...figure,
		...{ expected: 1 - figure.expected, least: 1 - figure.greatest, greatest: 1 - figure.least },
		oneKnown: { least: 1 - oneKnown.greatest, greatest: 1 - oneKnown.least },
		open: figure.open.map((open) => ({ ...open, least: 1 - open.greatest, greatest: 1 - open.least }))
	};
}

/** F = 2 s - 1. */
function fromSelf<F extends Ranged>(figure: F): F {
	const inbred = (self: number) => Math.max(0, 2 * self - 1);
	return {
		...figure,
		...{ expected: inbred(figure.expected), least: inbred(figure.least), greatest: inbred(figure.greatest) }
	};
}

/** The last year is now, of which more is known than its bounds. */
function endingAt(course: readonly YearFigure[], now: number, diversity: Ranged | null): YearFigure[] {
	return course.map((step) => {
		if (step.at !== now || !diversity) return step;
		const { expected, least, greatest } = diversity;
		return { ...step, diversity: { expected, least, greatest } };
	});
}

function foundersOf(state: ClubState, kinship: KinshipOfGroups, groups: readonly FounderGroup[]) {
	const names = namesOf(state, null);
	const all = groups.reduce((sum, { fish }) => sum + fish, 0);
	return groups
		.map(({ group: id, fish, share, least, greatest }): FounderShare => {
			const group = state.groups.get(id);
			return {
				...{ group: id, name: names.group(id), fish, share, least, greatest, evenShare: fish / all },
				source: group?.origin.from === 'founders' ? group.origin.source : '',
				roomName: group?.room ? names.room(group.room) : '',
				at: group?.started?.when.first ?? null,
				originUnknown: kinship.events.unknownOrigin.has(id)
			};
		})
		.sort((a, b) => b.share - a.share || (a.group < b.group ? -1 : 1));
}

/** Ne = 1 / (2 dF) with the mean rate at which diversity fell from the first to the last generation bred. */
function realisedSize(course: readonly GenerationFigure[]): LineFigures['likeBreeders'] {
	const first = course[0];
	const last = course.at(-1);
	if (!first || !last || last.generation <= first.generation) return null;
	const size = (from: number, to: number) => {
		const rate = 1 - (to / from) ** (1 / (last.generation - first.generation));
		return rate > 0 && Number.isFinite(rate) ? 1 / (2 * rate) : null;
	};
	const expected = size(first.diversity.expected, last.diversity.expected);
	if (expected === null) return null;
	const least = size(first.diversity.greatest, last.diversity.least) ?? expected;
	return { expected, least, greatest: size(first.diversity.least, last.diversity.greatest) };
}
