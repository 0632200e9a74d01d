import type { Family } from '#pedigree/family/family.ts';
import type { ThingId } from '#records/entry.ts';

/**
 * Relatives of a group: the family with only its forebears, itself, and its young and theirs.
 *
 * Fish that came by bag or from another group count as a step like a birth. Mates of its young are not in it, but
 * both parents of a forebear are.
 */
export function relativesOf(family: Family, group: ThingId): Family {
	const up = new Map<ThingId, ThingId[]>();
	const down = new Map<ThingId, ThingId[]>();
	const step = (from: ThingId, to: ThingId) => {
		up.set(to, [...(up.get(to) ?? []), from]);
		down.set(from, [...(down.get(from) ?? []), to]);
	};
	for (const { brood, fathers, mothers } of family.spawns)
		for (const parent of [...fathers.of, ...mothers.of])
			if (parent.standing !== 'ruled out') step(parent.group, brood);
	for (const { from, to } of family.moves) step(from, to);
	const kept = new Set([...reached(group, up), ...reached(group, down)]);
	return {
		...family,
		groups: family.groups.filter(({ id }) => kept.has(id)),
		spawns: family.spawns.filter(({ brood }) => kept.has(brood)),
		moves: family.moves.filter(({ from, to }) => kept.has(from) && kept.has(to))
	};
}

function reached(start: ThingId, steps: ReadonlyMap<ThingId, readonly ThingId[]>): Set<ThingId> {
	const found = new Set([start]);
	for (const id of found) for (const next of steps.get(id) ?? []) found.add(next);
	return found;
}
