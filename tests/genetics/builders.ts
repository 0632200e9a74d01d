/** Short ways to say group events; the same data every time. */
import type { GroupEvent, ParentShare, ParentSide, UnitId } from '#genetics/groups/event.ts';

/** Double precision on sums of halves: inbreeding and kinship agree to this. */
export const kinshipTolerance = { abs: 1e-12 };

export const founders = (unit: UnitId, count = 1, rest: { within?: number; inbreeding?: number } = {}) =>
	({ kind: 'founders', unit, count, ...rest }) satisfies GroupEvent;

/** `several('M')`, or `several(['s1', 0.6], ['s2', 0.4])`; `null` is an outside fish. */
export const several = (...from: (UnitId | [UnitId | null, number])[]): ParentSide => ({
	from: from.map(toShare),
	draw: 'several'
});
export const one = (...from: (UnitId | [UnitId | null, number])[]): ParentSide => ({
	from: from.map(toShare),
	draw: 'one'
});
const toShare = (share: UnitId | [UnitId | null, number]): ParentShare =>
	typeof share === 'string' ? { unit: share, weight: 1 } : { unit: share[0], weight: share[1] };

export const spawn = (
	fathers: ParentSide | UnitId,
	mothers: ParentSide | UnitId,
	...young: [UnitId, number][]
) =>
	({
		kind: 'spawn',
		fathers: typeof fathers === 'string' ? several(fathers) : fathers,
		mothers: typeof mothers === 'string' ? several(mothers) : mothers,
		young: young.map(([unit, count]) => ({ unit, count }))
	}) satisfies GroupEvent;
export const split = (unit: UnitId, from: UnitId, count: number) =>
	({ kind: 'split', unit, from, count }) satisfies GroupEvent;
export const merge = (unit: UnitId, ...of: UnitId[]) => ({ kind: 'merge', unit, of }) satisfies GroupEvent;
