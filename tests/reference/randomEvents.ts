import type { GroupEvent, ParentSide, UnitId } from '#genetics/groups/event.ts';
import { founders, spawn } from '#tests/genetics/builders.ts';

/** A random club history of every kind of event that the recursion knows, small enough to drop genes through. */
export function randomEvents(random: () => number, length: number): GroupEvent[] {
	const upTo = (n: number) => Math.floor(random() * n);
	const held = new Map<UnitId, number>([
		['u0', 1 + upTo(4)],
		['u1', 1 + upTo(4)],
		['u2', 4]
	]);
	const emptied = new Map<UnitId, number>();
	const events: GroupEvent[] = [
		founders('u0', held.get('u0')),
		founders('u1', held.get('u1')),
		founders('u2', 4, { within: 0.25 })
	];
	let next = 3;
	const begin = (count: number) => {
		held.set(`u${next}`, count);
		return `u${next++}`;
	};
	const standing = (least: number) => [...held].filter(([, count]) => count >= least).map(([unit]) => unit);
	const pick = <T>(list: readonly T[]): T => list[upTo(list.length)]!;
	/** Candidates for one side: not single fish of the other side, now and then units that have moved on. */
	const side = (not: readonly (UnitId | null)[]): ParentSide => {
		const known = [...held, ...emptied].filter(([unit, count]) => !not.includes(unit) || count > 1);
		const units = new Set<UnitId | null>(
			Array.from({ length: 1 + upTo(3) }, () => (random() < 0.1 ? null : pick(known)[0]))
		);
		const raw = [...units].map((unit) => ({ unit, weight: 0.1 + random() }));
		const total = raw.reduce((sum, { weight }) => sum + weight, 0);
		const from = raw.map(({ unit, weight }) => ({ unit, weight: weight / total }));
		return { from, draw: random() < 0.5 ? 'one' : 'several' };
	};
	/** Now and then the one parent is named, but not a fish of a tank of unknown sexes: its sex would matter. */
	const named = (side: ParentSide, other: ParentSide): ParentSide => {
		const sexed = !side.from.some(({ unit }) => other.from.some((share) => share.unit === unit));
		return side.draw === 'one' && sexed && random() < 0.5 ? { ...side, name: begin(1) } : side;
	};

	while (events.length < length) {
		const what = random();
		if (what < 0.55) {
			const mothers = side([]);
			const fathers = side(mothers.from.map(({ unit }) => unit));
			const young = Array.from({ length: 1 + upTo(2) }, () => 1 + upTo(3));
			const sides = [named(fathers, mothers), named(mothers, fathers)] as const;
			events.push(spawn(...sides, ...young.map((count): [UnitId, number] => [begin(count), count])));
		} else if (what < 0.8) {
			const from = pick(standing(1));
			const all = held.get(from)!;
			const count = 1 + upTo(all);
			events.push({ kind: 'split', unit: begin(count), from, count });
			if (count < all) held.set(from, all - count);
			else {
				held.delete(from);
				emptied.set(from, all);
			}
		} else if (what < 0.93 && held.size > 1) {
			const of = [...new Set([pick(standing(1)), pick(standing(1))])];
			const count = of.reduce((sum, unit) => sum + held.get(unit)!, 0);
			if (count > 8) continue;
			for (const unit of of) {
				emptied.set(unit, held.get(unit)!);
				held.delete(unit);
			}
			events.push({ kind: 'merge', unit: begin(count), of });
		} else if (standing(2).length > 0) {
			const unit = pick(standing(2));
			const count = held.get(unit)! - 1;
			held.set(unit, count);
			events.push({ kind: 'count', unit, count });
		}
	}
	return events;
}
