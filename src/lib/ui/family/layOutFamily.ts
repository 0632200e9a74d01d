import type { Family } from '#pedigree/family/family.ts';
import type { Drawing, Point } from './drawing.ts';
import { familyGraph } from './familyGraph.ts';
import { layOutPart } from './layOutPart.ts';

const betweenParts = 36;
/** Wider than high, like a desk's screen or a sheet laid across; own choice. */
const shape = 1.5;

/**
 * Lay out a family: where does everything stand in its drawing?
 *
 * Each joined part is laid out for itself, then all are put on shelves, largest first; so 90 groups that nothing joins
 * make a block and not one row.
 *
 * @param progress called after each part with how many groups have their place
 */
export function layOutFamily(
	family: Family,
	progress: (placed: number, all: number) => void = () => undefined
): Drawing {
	const parts: Drawing[] = [];
	let placed = 0;
	for (const part of familyGraph(family)) {
		parts.push(layOutPart(part));
		placed += part.groups.length;
		progress(placed, family.groups.length);
	}
	return onShelves(parts);
}

function onShelves(parts: readonly Drawing[]): Drawing {
	const area = parts.reduce(
		(sum, { width, height }) => sum + (width + betweenParts) * (height + betweenParts),
		0
	);
	const wide = Math.max(Math.sqrt(area * shape), ...parts.map((part) => part.width), 1);
	let [x, y, shelf, width] = [0, 0, 0, 0];
	const moved: Drawing[] = [];
	for (const part of parts) {
		if (x > 0 && x + part.width > wide) [x, y, shelf] = [0, y + shelf + betweenParts, 0];
		moved.push(movedBy(part, { x, y }));
		x += part.width + betweenParts;
		shelf = Math.max(shelf, part.height);
		width = Math.max(width, x - betweenParts);
	}
	return {
		width,
		height: y + shelf,
		groups: moved.flatMap((part) => part.groups),
		matings: moved.flatMap((part) => part.matings),
		lines: moved.flatMap((part) => part.lines)
	};
}

function movedBy(part: Drawing, by: Point): Drawing {
	const move = <P extends Point>(point: P): P => ({ ...point, x: point.x + by.x, y: point.y + by.y });
	return {
		...part,
		groups: part.groups.map(move),
		matings: part.matings.map(move),
		lines: part.lines.map((line) => ({
			...line,
			points: line.points.map(move),
			labelAt: line.labelAt && move(line.labelAt)
		}))
	};
}
