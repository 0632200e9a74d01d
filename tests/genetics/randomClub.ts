import type { GroupEvent, UnitId } from '#genetics/groups/event.ts';
import { randomEvents } from '#tests/reference/randomEvents.ts';

/**
 * A random history with every kind of event: that of `randomEvents`, and then founders of one source, fish out of
 * one of several units, a colony nobody recorded, unequal use, and a unit that died out.
 */
export function randomClub(random: () => number, length: number): GroupEvent[] {
	const upTo = (n: number) => Math.floor(random() * n);
	const events = randomEvents(random, length - 5);
	const held = heldAfter(events);
	const standing = (least: number) => [...held].filter(([, count]) => count >= least).map(([unit]) => unit);
	const pick = <T>(list: readonly T[]): T => list[upTo(list.length)]!;
	const begin = (unit: UnitId, count: number) => {
		held.set(unit, count);
		return { unit, count };
	};
	events.push(
		{ kind: 'founders', ...begin('shop', 5), within: 0.25, assumed: true },
		{
			kind: 'founders',
			...begin('shop2', 4),
			within: 0.25,
			assumed: true,
			related: [{ unit: 'shop', kinship: 0.25 }]
		}
	);
	// Sources lose fish in a drop but not their number in the recursion: they have enough, and no part in what follows.
	const possible = standing(5).filter((unit) => unit !== 'shop' && unit !== 'shop2');
	const sources = [...new Set(possible.length ? [pick(possible), 'shop'] : ['shop'])];
	for (const unit of sources) held.delete(unit);
	events.push({
		kind: 'oneOf',
		units: [begin('came', 2), begin('came2', 1)],
		from: sources.map((unit) => ({
			units: [unit, unit],
			weight: 1 / sources.length
		}))
	});
	const mothers = pick(standing(2));
	events.push({
		kind: 'spawn',
		fathers: {
			from: [
				{ unit: 'shop2', weight: 0.7, breeders: 1 + upTo(3) },
				{ unit: 'came', weight: 0.3 }
			],
			draw: 'several'
		},
		mothers: { from: [{ unit: mothers, weight: 1 }], draw: 'one' },
		young: [begin('used', 3)]
	});
	const colony = pick(standing(3));
	const unsexed = random() < 0.5;
	events.push({
		kind: 'generations',
		fathers: [colony],
		mothers: unsexed ? [colony] : [pick(standing(2).filter((unit) => unit !== colony))],
		males: 1,
		females: unsexed ? 1 : 2,
		generations: 1 + upTo(3),
		young: [begin('later', 2), begin('later2', 1)]
	});
	return events;
}

/** How many fish each unit holds in the end. */
function heldAfter(events: readonly GroupEvent[]): Map<UnitId, number> {
	const held = new Map<UnitId, number>();
	for (const event of events) {
		if (event.kind === 'founders' || event.kind === 'count') held.set(event.unit, event.count);
		else if (event.kind === 'spawn') {
			for (const { name } of [event.fathers, event.mothers]) if (name !== undefined) held.set(name, 1);
			for (const { unit, count } of event.young) held.set(unit, count);
		} else if (event.kind === 'split') {
			const stayed = held.get(event.from)! - event.count;
			held.set(event.unit, event.count);
			if (stayed > 0) held.set(event.from, stayed);
			else held.delete(event.from);
		} else if (event.kind === 'merge') {
			const count = event.of.reduce((sum, unit) => sum + held.get(unit)!, 0);
			for (const unit of event.of) held.delete(unit);
			held.set(event.unit, count);
		}
	}
	return held;
}
