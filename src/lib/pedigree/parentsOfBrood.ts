import { broodClock } from '#club/spawns/broodClock.ts';
import { possibleParents } from '#club/spawns/possibleParents.ts';
import { dayMs } from '#club/question.ts';
import type { ThingId } from '#records/entry.ts';
import type { ClubState, Group, ParentSet, Spawn } from '#records/state.ts';

export interface ParentsOfBrood {
	readonly fathers: ParentSet;
	readonly mothers: ParentSet;
	/** The record names no father (mother): these follow from where the mother lived. */
	readonly fathersDerived: boolean;
	readonly mothersDerived: boolean;
	/** The kind of fish stores sperm so long, days; 0 = it does not. */
	readonly windowDays: number;
}

/** Kinds of fish of which most broods have several fathers: Elgee et al. 2012; Girndt et al. 2012 (from summaries). */
const severalFathers = new Set(['guppy', 'livebearer']);

/**
 * Parents of a brood: who may be father and mother, as the record says or as follows from where the mother lived?
 *
 * A side that names nobody is filled from the group that the young were seen in, or from the one group that the other
 * parent is of: mothers live there; fathers lived there or with her within the window of her kind of fish. After a
 * suspected unknown male in the mother's tank, inside that window or for egg layers from then on, a father who is not
 * listed is possible. Where nobody said whether one or several were the fathers, it is several for livebearers, whose
 * broods mostly have several fathers, and one for all others.
 */
export function parentsOfBrood(state: ClubState, spawn: Spawn, brood: ThingId): ParentsOfBrood {
	const at = spawn.seen?.when.last ?? 0;
	const fishGroup = (spawn.line ? state.lines.get(spawn.line)?.fishGroup : undefined) ?? 'other';
	const windowDays = broodClock[fishGroup].fatherWindowDays;
	const where = spawn.inGroup ?? onlyOf(spawn.mothers) ?? null;
	const asked = where !== null && state.groups.get(where)?.id !== brood ? where : null;
	const named = (set: ParentSet) => set.of.length > 0;
	const derived =
		asked && !(named(spawn.fathers) && named(spawn.mothers))
			? possibleParents(state, { room: spawn.room ?? '', group: asked, at })
			: null;
	const mothers =
		!named(spawn.mothers) && derived?.mothersDefault.of.length ? derived.mothersDefault : spawn.mothers;
	let fathers =
		!named(spawn.fathers) && derived?.fathersDefault.of.length ? derived.fathersDefault : spawn.fathers;
	const mother = where ? state.groups.get(where) : undefined;
	if (mother && maleMayHaveBeen(mother, at, windowDays)) fathers = { ...fathers, others: true };
	if (fathers.number === 'not known' && severalFathers.has(fishGroup))
		fathers = { ...fathers, number: 'several' };
	return {
		fathers,
		mothers,
		fathersDerived: !named(spawn.fathers) && fathers.of.length > 0,
		mothersDerived: !named(spawn.mothers) && mothers.of.length > 0,
		windowDays
	};
}

function onlyOf(set: ParentSet): ThingId | undefined {
	const there = set.of.filter((one) => one.standing !== 'ruled out');
	return there.length === 1 ? there[0]?.group : undefined;
}

function maleMayHaveBeen(mother: Group, at: number, windowDays: number): boolean {
	return mother.mixes.some(
		(mix) =>
			mix.sort === 'unknown male' &&
			mix.when.first <= at &&
			(windowDays === 0 || at - mix.when.last <= windowDays * dayMs)
	);
}
