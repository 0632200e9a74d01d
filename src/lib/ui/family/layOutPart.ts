import { Graph, layout } from '@dagrejs/dagre';
import { groupHeight, groupWidth, type Drawing, type PlacedLine, type Point } from './drawing.ts';
import type { FamilyGraph } from './familyGraph.ts';

const betweenGroups = 26;
const betweenRows = 34;
/** Mating lines of one row that would run over each other lie in lanes this far apart. */
const laneStep = 8;
const lanes = 5;
const matingHeight = laneStep * (lanes - 1) + 8;
const labelHeight = 22;
const letterWidth = 7.2;

interface Spot extends Point {
	width: number;
	height: number;
}

/**
 * Lay out a part: where does each group of one joined part stand, and how do its lines run?
 *
 * Layered drawing (Sugiyama, Tagawa & Toda 1981) by dagre. Groups stand on even rows and mating lines on odd ones: a
 * line to the mating is one row long and a move two, so rows found by tight edges keep their parity, and a
 * horizontal mating line meets no group.
 */
export function layOutPart(part: FamilyGraph): Drawing {
	const graph = new Graph({ multigraph: true });
	graph.setGraph({ rankdir: 'TB', nodesep: betweenGroups, ranksep: betweenRows, marginx: 8, marginy: 8 });
	graph.setDefaultEdgeLabel(() => ({}));
	for (const id of part.groups) graph.setNode(`g${id}`, { width: groupWidth, height: groupHeight });
	for (const { id, brood, parents } of part.matings) {
		graph.setNode(`m${id}`, { width: 12, height: matingHeight });
		for (const { group } of parents) graph.setEdge(`g${group}`, `m${id}`, { weight: 2 }, 'parent');
		graph.setEdge(`m${id}`, `g${brood}`, { weight: 6 }, 'young');
	}
	for (const { id, from, to, label } of part.moves) {
		const width = label ? label.length * letterWidth + 8 : 0;
		const size = { width, height: label ? labelHeight : 0, labelpos: 'c' };
		graph.setEdge(`g${from}`, `g${to}`, { minlen: 2, weight: 1, ...size }, id);
	}
	layout(graph);
	const spot = (name: string) => graph.node(name) as unknown as Spot;
	const route = (from: string, to: string, name: string) =>
		graph.edge(from, to, name) as unknown as { points: Point[]; x?: number; y?: number };
	const matingAt = inLanes(part, spot, route);
	const lines: PlacedLine[] = [];
	const plain = { dashed: false, double: false, label: '', labelAt: null };
	for (const mating of part.matings) {
		const at = matingAt.get(mating.id) ?? spot(`m${mating.id}`);
		for (const { group, certain } of mating.parents) {
			const start = spot(`g${group}`);
			const inner = innerPoints(route(`g${group}`, `m${mating.id}`, 'parent').points);
			const last = inner.at(-1) ?? start;
			const points = [{ x: start.x, y: start.y + groupHeight / 2 }, ...inner, { x: last.x, y: at.y }, at];
			const id = `${group}>${mating.id}`;
			lines.push({
				...plain,
				...{ id, kind: 'parent', from: group, to: mating.brood, points },
				...{ dashed: !certain, double: mating.related }
			});
		}
		const end = spot(`g${mating.brood}`);
		const top = { x: end.x, y: end.y - groupHeight / 2 };
		const inner = innerPoints(route(`m${mating.id}`, `g${mating.brood}`, 'young').points);
		const turn = top.y - 12;
		const bend = inner.length ? [] : [{ x: at.x, y: turn }];
		const points = [at, ...bend, ...inner, { x: top.x, y: turn }, top];
		lines.push({
			...plain,
			id: `young${mating.id}`,
			kind: 'young',
			from: mating.id,
			to: mating.brood,
			points
		});
	}
	for (const move of part.moves) {
		const edge = route(`g${move.from}`, `g${move.to}`, move.id);
		lines.push({
			...plain,
			...{ id: move.id, kind: 'move', from: move.from, to: move.to, dashed: !move.certain },
			points: moveRoute(spot(`g${move.from}`), edge.points, spot(`g${move.to}`)),
			label: move.label,
			labelAt: move.label && edge.x !== undefined && edge.y !== undefined ? { x: edge.x, y: edge.y } : null
		});
	}
	const { width = 0, height = 0 } = graph.graph() as { width?: number; height?: number };
	const groups = part.groups.map((id) => ({ id, x: spot(`g${id}`).x, y: spot(`g${id}`).y }));
	const matings = part.matings.map(({ id, open }) => ({
		id,
		open,
		x: spot(`m${id}`).x,
		y: matingAt.get(id)?.y ?? spot(`m${id}`).y
	}));
	return { width, height, groups, matings, lines };
}

/** An arrow leaves below a group and ends above its symbol, a little aside so that several are told apart. */
function moveRoute(from: Spot, points: readonly Point[], to: Spot): Point[] {
	const inner = points.slice(1, -1);
	if (to.y <= from.y) return [...points];
	const before = inner.at(-1) ?? from;
	const aside = Math.max(-16, Math.min(16, (before.x - to.x) / 8));
	const end = { x: to.x + aside, y: to.y - groupHeight / 2 };
	return [{ x: from.x, y: from.y + groupHeight / 2 }, ...inner, { x: end.x, y: end.y - 14 }, end];
}

/** Bends that are needed: those of a line to the very next row lead nowhere else than its ends. */
function innerPoints(points: readonly Point[]): Point[] {
	return points.length <= 3 ? [] : points.slice(1, -1);
}

/** Mating lines of one row: those that share some of their length get lanes of their own. */
function inLanes(
	part: FamilyGraph,
	spot: (name: string) => Spot,
	route: (from: string, to: string, name: string) => { points: Point[] }
): Map<string, Point> {
	const spans = part.matings.map((mating) => {
		const { x, y } = spot(`m${mating.id}`);
		const ends = mating.parents.map(
			({ group }) =>
				(innerPoints(route(`g${group}`, `m${mating.id}`, 'parent').points).at(-1) ?? spot(`g${group}`)).x
		);
		return { id: mating.id, x, y, left: Math.min(x, ...ends), right: Math.max(x, ...ends) };
	});
	const at = new Map<string, Point>();
	const taken = new Map<string, number>();
	for (const { id, x, y, left, right } of spans.sort((a, b) => a.y - b.y || a.left - b.left)) {
		let lane = 0;
		while (lane < lanes - 1 && (taken.get(`${y}|${lane}`) ?? -Infinity) > left - betweenGroups / 2) lane++;
		taken.set(`${y}|${lane}`, Math.max(right, taken.get(`${y}|${lane}`) ?? -Infinity));
		at.set(id, { x, y: y - matingHeight / 2 + 4 + lane * laneStep });
	}
	return at;
}
