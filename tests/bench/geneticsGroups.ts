/** Events of groups for the bench, made from a seed, and one event more of each sort. */
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import type { GroupEvent, ParentSide } from '#genetics/groups/event.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';

const unitSize = 20;

/** So many units, of which the first ten are founders; parents are among the last forty. */
export function groupHistory(units: number, seed: number): GroupEvent[] {
	const random = randomFrom(seed);
	const events: GroupEvent[] = [];
	/** Units that hold fish, each with how many. */
	const held: { unit: string; count: number }[] = [];
	const recent = (side: 'm' | 'f', but?: string) => {
		const of = held.filter(({ unit, count }) => unit.endsWith(side) && count > 6 && unit !== but).slice(-40);
		return of[Math.floor(random() * of.length)]!;
	};
	let made = 0;
	const fresh = (side: 'm' | 'f') => `${made++}${side}`;
	for (let k = 0; k < 5; k++)
		for (const side of ['m', 'f'] as const) {
			const unit = fresh(side);
			events.push({ kind: 'founders', unit, count: unitSize });
			held.push({ unit, count: unitSize });
		}
	while (made < units) {
		const chance = random();
		if (chance < 0.6) {
			const number = 1 + Math.floor(random() * 3);
			const fathers = [...new Set(Array.from({ length: number }, () => recent('m').unit))];
			const young = (['m', 'f'] as const).map((side) => ({ unit: fresh(side), count: unitSize }));
			events.push({ kind: 'spawn', fathers: sideOf(fathers), mothers: sideOf([recent('f').unit]), young });
			held.push(...young.map((one) => ({ ...one })));
		} else if (chance < 0.9) {
			const side = random() < 0.5 ? 'm' : 'f';
			const from = recent(side);
			const unit = fresh(side);
			events.push({ kind: 'split', unit, from: from.unit, count: 6 });
			from.count -= 6;
			held.push({ unit, count: 6 });
		} else {
			const side = random() < 0.5 ? 'm' : 'f';
			const one = recent(side);
			const other = recent(side, one.unit);
			const unit = fresh(side);
			events.push({ kind: 'merge', unit, of: [one.unit, other.unit] });
			held.push({ unit, count: one.count + other.count });
			one.count = other.count = 0;
		}
	}
	return events;
}

function sideOf(units: readonly string[]): ParentSide {
	return { from: units.map((unit) => ({ unit, weight: 1 / units.length })), draw: 'one' };
}

/** One event more, or of a bag two: some males and some females leave. `run` chooses of which units. */
export function oneMoreOf(
	table: GroupKinship,
	sort: 'brood' | 'split' | 'merge' | 'bag',
	run: number
): GroupEvent[] {
	const able = (side: 'm' | 'f') =>
		table.units.filter((unit, i) => unit.endsWith(side) && !table.emptied[i] && table.count[i]! > 6);
	const males = able('m');
	const females = able('f');
	const male = males[run % males.length]!;
	const female = females[(run * 7) % females.length]!;
	if (sort === 'brood') {
		const fathers = [...new Set([male, males[(run + 1) % males.length]!, males[(run + 2) % males.length]!])];
		const young = [{ unit: 'new', count: unitSize }];
		return [{ kind: 'spawn', fathers: sideOf(fathers), mothers: sideOf([female]), young }];
	}
	if (sort === 'split') return [{ kind: 'split', unit: 'new', from: male, count: 3 }];
	if (sort === 'merge') return [{ kind: 'merge', unit: 'new', of: [male, males[(run + 1) % males.length]!] }];
	return [
		{ kind: 'split', unit: 'new males', from: male, count: 3 },
		{ kind: 'split', unit: 'new females', from: female, count: 3 }
	];
}
