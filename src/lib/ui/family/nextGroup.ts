import type { PlacedGroup } from './drawing.ts';

export type Direction = 'up' | 'down' | 'left' | 'right';

/**
 * Next group: which one does an arrow key lead to?
 *
 * The nearest that lies that way; what lies to the side counts as twice as far. Nothing there = the same group.
 */
export function nextGroup(groups: readonly PlacedGroup[], from: PlacedGroup, to: Direction): PlacedGroup {
	let best = from;
	let least = Infinity;
	for (const group of groups) {
		const [dx, dy] = [group.x - from.x, group.y - from.y];
		const ahead = { up: -dy, down: dy, left: -dx, right: dx }[to];
		const aside = Math.abs(to === 'up' || to === 'down' ? dx : dy);
		if (group.id === from.id || ahead <= 1) continue;
		// Left and right keep to the row where there is one.
		const far = ahead + (to === 'left' || to === 'right' ? 6 : 2) * aside;
		if (far < least) [least, best] = [far, group];
	}
	return best;
}
