import { kinshipWords, type KinshipWords } from '#genetics/words/kinshipWords.ts';
import { nextMating, type NextMating } from '#genetics/words/nextMating.ts';
import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import type { ClubState, Fish, Group } from '#records/state.ts';
import { figureWords, sureWords, type FigureWithWhy } from './figureWords.ts';
import type { GrownTable } from './goneOn.ts';
import { KinshipOfGroups } from './kinshipOfGroups.ts';

export interface RelatednessFigure extends FigureWithWhy {
	readonly step: KinshipWords['step'];
	/** "as close as cousins"; "not known" when nothing shows a tie but an origin is not known. */
	readonly words: string;
	readonly tier: NextMating['tier'];
	/** "0.06, between 0.03 and 0.13, because …" as a sentence. */
	readonly sentence: string;
	/** One sentence on what the figure rests on; '' when nothing is open. */
	readonly howSure: string;
	/** Nothing is shared as far as the record goes, but it does not say where some of the fish came from. */
	readonly unknown: boolean;
}
export interface RelatednessCandidate extends RelatednessFigure {
	readonly group: ThingId;
	readonly fromRoom: ThingId;
	readonly fish: Fish;
	/** Fish that the room has offered; null = not offered. */
	readonly spare: Fish | null;
	readonly suspectedMix: boolean;
}
export type ExcludedWhy = 'closed tank' | 'closed room' | 'quarantine';
export interface RelatednessOfYoung {
	/** What the young are now, if the room's own fish breed; null = the room has none. */
	readonly have: RelatednessFigure | null;
	/** Least related young first. */
	readonly candidates: readonly RelatednessCandidate[];
	readonly excluded: readonly {
		readonly group: ThingId;
		readonly fromRoom: ThingId;
		readonly why: ExcludedWhy;
		/** End of quarantine, ms since 1970; null otherwise. */
		readonly until: number | null;
	}[];
	/** Nobody has fish whose young would be less related than those that the room has already. */
	readonly nothingBetter: boolean;
	/** The receiving room, or all its tanks of the line, are closed: nothing in. */
	readonly roomClosed: boolean;
	readonly complete: boolean;
}

export interface RelatednessQuestion {
	readonly state: ClubState;
	readonly line: ThingId;
	readonly toRoom: ThingId;
	/** ms since 1970; for quarantine. */
	readonly now: number;
	/** A table of the line to go on from. */
	readonly earlier?: GrownTable | null;
}

/** A group of unknown origin is ranked as if its young were of cousins: own choice, no source. */
const rankOfUnknown = 1 / 16;
/** A smaller gain than this is none: a quarter of a per cent of inbreeding. Own choice, no source. */
const worthTheDrive = 0.0025;

/**
 * Relatedness of young: whose fish of this line should a room get, so that the young are least related?
 *
 * For every group of the line in another room: the expected inbreeding of young of one of its fish and one of the
 * room's fish, by group kinship from the recorded parents with the default weights, and its range over all that
 * the record leaves open. For a room without fish of the line: of two fish of the candidate group. Closed tanks, closed rooms and
 * quarantine are hard stops and told by group. The least related come first; then those with most fish.
 *
 * This is the seam for whatever computes it: other modules may stand behind this function, its question and its
 * answer stay.
 * Source: rules G1 to G7 as in `groupKinship`; weights, order and words are our own choice.
 * Cost: one kinship table, and one pass over it for each figure, see LineKinship.
 */
export function relatednessOfYoung({
	state,
	line,
	toRoom,
	now,
	earlier
}: RelatednessQuestion): RelatednessOfYoung {
	const groups = [...new Set(state.groups.values())]
		.filter((group) => group.line === line && group.room !== null && stands(group))
		.sort((a, b) => (a.id < b.id ? -1 : 1));
	const own = groups.filter((group) => group.room === toRoom).map((group) => group.id);
	const others = groups.filter((group) => group.room !== toRoom);
	const excluded = others.flatMap((group) => {
		const why = stopped(state, group, now);
		return why && group.room
			? [
					{
						group: group.id,
						fromRoom: group.room,
						why,
						until: why === 'quarantine' ? (group.quarantine?.untilMs ?? null) : null
					}
				]
			: [];
	});
	const free = others.filter((group) => !excluded.some((out) => out.group === group.id));
	const kinship = new KinshipOfGroups(state, line, earlier ?? null);
	const have = own.length ? figure(state, kinship, kinship.within(own), own) : null;
	const candidates = free
		.filter((group) => kinship.knows(group.id))
		.map((group) => candidate(state, kinship, group, own))
		.sort(
			(a, b) =>
				rankOf(a) - rankOf(b) || howManyFish(b.fish) - howManyFish(a.fish) || (a.group < b.group ? -1 : 1)
		);
	const best = candidates[0];
	const ownOpen = own.filter((id) => !state.groups.get(id)?.closed);
	return {
		have,
		candidates,
		excluded,
		nothingBetter: have !== null && (best === undefined || rankOf(best) > have.expected - worthTheDrive),
		roomClosed: state.rooms.get(toRoom)?.closed != null || (own.length > 0 && ownOpen.length === 0),
		complete: true
	};
}

function candidate(
	state: ClubState,
	kinship: KinshipOfGroups,
	group: Group,
	own: readonly ThingId[]
): RelatednessCandidate {
	const of = own.length ? kinship.between(own, [group.id]) : kinship.within([group.id]);
	return {
		...figure(state, kinship, of, [...own, group.id]),
		group: group.id,
		fromRoom: group.room ?? '',
		fish: group.now.fish,
		spare: group.spare?.fish ?? null,
		suspectedMix: group.mixes.length > 0
	};
}

function figure(
	state: ClubState,
	kinship: KinshipOfGroups,
	of: FigureWithWhy,
	groups: readonly ThingId[]
): RelatednessFigure {
	const outside = [...kinship.events.unknownOrigin].filter((id) =>
		groups.some((group) => kinship.forebearsOf(group).has(id))
	);
	const unknown = outside.length > 0 && kinshipWords(of.greatest).step === 'none';
	const said = kinshipWords(unknown ? null : of.expected);
	return {
		...of,
		step: said.step,
		words: said.words,
		tier: nextMating(unknown ? null : of.expected).tier,
		sentence: figureWords(of, said.words, unknown),
		howSure: sureWords(state, outside),
		unknown
	};
}

function rankOf(one: RelatednessCandidate): number {
	return one.unknown ? Math.max(rankOfUnknown, one.expected) : one.expected;
}

/** Whether fish may still be there: not ended, and counted above 0 or never counted. */
function stands(group: Group): boolean {
	return !group.ended && (group.now.certainty === 'not known' || howManyFish(group.now.fish) > 0);
}

function stopped(state: ClubState, group: Group, now: number): ExcludedWhy | null {
	if (group.room && state.rooms.get(group.room)?.closed) return 'closed room';
	if (group.closed) return 'closed tank';
	return group.quarantine && group.quarantine.untilMs > now ? 'quarantine' : null;
}
