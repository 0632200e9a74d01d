import type { Point } from './drawing.ts';

const soft = 10;

/** An SVG path through these points, its corners a little rounded so that crossing lines are told from bends. */
export function linePath(points: readonly Point[]): string {
	const [first, ...rest] = points;
	if (!first) return '';
	let path = `M${r(first.x)} ${r(first.y)}`;
	rest.forEach((point, i) => {
		const next = rest[i + 1];
		const before = rest[i - 1] ?? first;
		if (!next) {
			path += `L${r(point.x)} ${r(point.y)}`;
			return;
		}
		const a = towards(point, before);
		const b = towards(point, next);
		path += `L${r(a.x)} ${r(a.y)}Q${r(point.x)} ${r(point.y)} ${r(b.x)} ${r(b.y)}`;
	});
	return path;
}

function towards(from: Point, to: Point): Point {
	const length = Math.hypot(to.x - from.x, to.y - from.y);
	const part = length === 0 ? 0 : Math.min(soft, length / 2) / length;
	return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
}

function r(value: number): string {
	return value.toFixed(1);
}
