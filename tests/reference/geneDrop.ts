/**
 * The slow, obvious version of group kinship: explicit fish with two explicit genes each, and every draw made.
 * Gene drop: MacCluer, VandeBerg, Read & Ryder 1986, Zoo Biology 5:147. It shares no formula with the recursion.
 */
import type { GroupEvent, ParentSide, UnitId } from '#genetics/groups/event.ts';

/** One fish: its two genes, each a number that tells which founder gene it is a copy of. */
type Fish = readonly [number, number];

/** Drops genes through the events once and returns the fish that each unit held last. */
export function geneDrop(events: readonly GroupEvent[], random: () => number): Map<UnitId, Fish[]> {
	const fish = new Map<UnitId, Fish[]>();
	/** Fish in a tank of unknown sexes, males first: decided once, since a fish does not change its sex. */
	const males = new Map<UnitId, Set<Fish>>();
	let genes = 0;
	const wild = (): Fish => [genes++, genes++];
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
	const young = (father: Fish, mother: Fish): Fish => [pick(father), pick(mother)];

	const shuffle = <T>(list: T[]) => {
		for (let i = list.length - 1; i > 0; i--) {
			const j = Math.floor(random() * (i + 1));
			[list[i], list[j]] = [list[j]!, list[i]!];
		}
		return list;
	};

	/** A function that gives the parent of one young after another. */
	const parentDrawer = (side: ParentSide, other: ParentSide, isFather: boolean) => {
		let outsider: Fish | undefined;
		const drawOnce = (): Fish => {
			let left = random() * side.from.reduce((sum, { weight }) => sum + weight, 0);
			const share = side.from.find(({ weight }) => (left -= weight) < 0) ?? side.from.at(-1)!;
			if (share.unit === null) return (outsider ??= wild());
			const all = fish.get(share.unit)!;
			if (!other.from.some(({ unit }) => unit === share.unit)) return pick(all);
			let sons = males.get(share.unit);
			if (!sons) {
				const half = random() < 0.5 ? Math.floor(all.length / 2) : Math.ceil(all.length / 2);
				males.set(share.unit, (sons = new Set(shuffle([...all]).slice(0, half))));
			}
			return pick(all.filter((one) => sons.has(one) === isFather));
		};
		if (side.draw === 'several') return drawOnce;
		const only = drawOnce();
		if (side.name !== undefined) fish.set(side.name, [only]);
		return () => only;
	};

	for (const event of events) {
		if (event.kind === 'founders') {
			const parents = event.within === 0.25 ? ([wild(), wild()] as const) : undefined;
			if (!parents && (event.within || event.inbreeding || event.related))
				throw new RangeError('geneDrop knows founders that are unrelated, or the young of one pair');
			fish.set(
				event.unit,
				Array.from({ length: event.count }, () => (parents ? young(...parents) : wild()))
			);
		} else if (event.kind === 'spawn') {
			const father = parentDrawer(event.fathers, event.mothers, true);
			const mother = parentDrawer(event.mothers, event.fathers, false);
			for (const { unit, count } of event.young)
				fish.set(
					unit,
					Array.from({ length: count }, () => young(father(), mother()))
				);
		} else if (event.kind === 'split') {
			const all = shuffle([...fish.get(event.from)!]);
			fish.set(event.unit, all.slice(0, event.count));
			if (event.count < all.length) fish.set(event.from, all.slice(event.count));
		} else if (event.kind === 'merge') {
			fish.set(
				event.unit,
				event.of.flatMap((unit) => fish.get(unit)!)
			);
		} else if (event.kind === 'count') {
			fish.set(event.unit, shuffle([...fish.get(event.unit)!]).slice(0, event.count));
		} else throw new RangeError(`not dropped here: ${event.kind}`);
	}
	return fish;
}

/** Chance that a random gene of one fish and one of another fish are copies of one founder gene. */
const alike = (a: Fish, b: Fish) =>
	(Number(a[0] === b[0]) + Number(a[0] === b[1]) + Number(a[1] === b[0]) + Number(a[1] === b[1])) / 4;

/** Of each unit: the mean inbreeding of its fish. */
export function droppedInbreeding(fish: readonly Fish[]): number {
	return fish.filter(([a, b]) => a === b).length / fish.length;
}

/** Mean over all pairs of different fish of one unit. */
export function droppedWithin(fish: readonly Fish[]): number {
	let sum = 0;
	for (let i = 1; i < fish.length; i++) for (let j = 0; j < i; j++) sum += alike(fish[i]!, fish[j]!);
	return sum / ((fish.length * (fish.length - 1)) / 2);
}

/** Mean over one fish of each; a fish that both units held is met by itself too. */
export function droppedBetween(these: readonly Fish[], those: readonly Fish[]): number {
	let sum = 0;
	for (const a of these)
		for (const b of those) sum += a === b ? (1 + Number(a[0] === a[1])) / 2 : alike(a, b);
	return sum / (these.length * those.length);
}
