/** What stands in a drawing and what is joined to what, before anything has a place. */
import type { Family } from '#pedigree/family/family.ts';
import type { ThingId } from '#records/entry.ts';
import { bagNumberText } from '#records/bagNumberText.ts';
import { months } from '#ui/shared/dateWords.ts';

export interface MatingNode {
	readonly id: ThingId;
	readonly brood: ThingId;
	readonly related: boolean;
	readonly open: boolean;
	readonly parents: readonly { readonly group: ThingId; readonly certain: boolean }[];
}
export interface MoveEdge {
	readonly id: string;
	readonly from: ThingId;
	readonly to: ThingId;
	readonly certain: boolean;
	readonly label: string;
}
export interface FamilyGraph {
	readonly groups: readonly ThingId[];
	readonly matings: readonly MatingNode[];
	readonly moves: readonly MoveEdge[];
}

/**
 * The graph of a family, in parts that nothing joins, largest first.
 *
 * Parents that were ruled out are not drawn. A group that may be father and mother of one brood gets one line.
 */
export function familyGraph(family: Family): FamilyGraph[] {
	const there = new Set(family.groups.map((group) => group.id));
	const matings = family.spawns
		.filter((spawn) => there.has(spawn.brood))
		.map((spawn): MatingNode => {
			const parents = new Map<ThingId, boolean>();
			for (const side of [spawn.fathers, spawn.mothers])
				for (const { group, standing } of side.of) {
					if (standing === 'ruled out' || group === spawn.brood || !there.has(group)) continue;
					parents.set(group, (parents.get(group) ?? false) || standing === 'seen');
				}
			return {
				id: spawn.id,
				brood: spawn.brood,
				related: (spawn.parentsRelated ?? 0) > 1e-9,
				open: [spawn.fathers, spawn.mothers].some((side) => side.others || side.of.length === 0),
				parents: [...parents].map(([group, certain]) => ({ group, certain }))
			};
		});
	const moves = family.moves
		.filter(({ from, to }) => from !== to && there.has(from) && there.has(to))
		.map((move, i): MoveEdge => ({
			id: `move${i}`,
			from: move.from,
			to: move.to,
			certain: move.certain,
			label: [move.bagNumber ? `bag ${bagNumberText(move.bagNumber)}` : '', shortDate(move.at)]
				.filter(Boolean)
				.join(', ')
		}));
	return parts({ groups: family.groups.map((group) => group.id), matings, moves });
}

/** "12 Mar 2026". */
export function shortDate(at: number | null): string {
	if (at === null || !Number.isFinite(at)) return '';
	const day = new Date(at);
	return `${day.getDate()} ${months[day.getMonth()]?.slice(0, 3) ?? ''} ${day.getFullYear()}`;
}

function parts(graph: FamilyGraph): FamilyGraph[] {
	const leader = new Map<ThingId, ThingId>(graph.groups.map((id) => [id, id]));
	const find = (id: ThingId): ThingId => {
		let root = id;
		while (leader.get(root) !== root) root = leader.get(root) ?? root;
		leader.set(id, root);
		return root;
	};
	const join = (a: ThingId, b: ThingId) => void leader.set(find(a), find(b));
	for (const { brood, parents } of graph.matings) for (const { group } of parents) join(brood, group);
	for (const { from, to } of graph.moves) join(from, to);
	const found = new Map<ThingId, { groups: ThingId[]; matings: MatingNode[]; moves: MoveEdge[] }>();
	for (const id of graph.groups) {
		const part = found.get(find(id));
		if (part) part.groups.push(id);
		else found.set(find(id), { groups: [id], matings: [], moves: [] });
	}
	for (const mating of graph.matings) found.get(find(mating.brood))?.matings.push(mating);
	for (const move of graph.moves) found.get(find(move.to))?.moves.push(move);
	return [...found.values()].sort((a, b) => b.groups.length - a.groups.length);
}
