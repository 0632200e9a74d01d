/** Groups of fish as the demo's keepers have them, and what they write when fish come, go, grow and are counted. */
import { addFish, howManyFish, noFish } from '#records/fishCount.ts';
import { groupChanged } from '#records/kinds/groups/changed.ts';
import { groupCounted } from '#records/kinds/groups/counted.ts';
import { groupMoved } from '#records/kinds/groups/moved.ts';
import { groupNamed } from '#records/kinds/groups/named.ts';
import { groupStageReached } from '#records/kinds/groups/stageReached.ts';
import { wordWithdrawn } from '#records/kinds/words/withdrawn.ts';
import { groupStarted } from '#records/kinds/groups/started.ts';
import type { EntryId, ThingId } from '#records/entry.ts';
import type { Certainty, CountChange, Fish, Origin, Stage } from '#records/state.ts';
import { countSlips, deathCauses, tankPlaces, type RoomKey } from '#server/demo/scenario/names.ts';
import { aboutDay, dayMs, dayOf, type World, type Writing } from '#server/demo/scenario/world.ts';

/** `fish` is what swims there: never more than the club's record says, since only losses go unwritten. */
export interface Tank {
	readonly id: ThingId;
	readonly lineId: ThingId;
	readonly room: RoomKey;
	fish: Fish;
	/** When these fish were young, ms since 1970. */
	readonly born: number;
	isSexed: boolean;
	isOver: boolean;
	/** Males lived here, and may have left sperm behind when they died. */
	hadMales: boolean;
	/** Closed or in quarantine: nothing goes out before this. */
	shutUntil: number;
	/** Groups whose males its females may still carry sperm of, with the last day together. */
	readonly metBefore: { readonly tank: Tank; readonly until: number }[];
	lastCount: number;
}

export const total = (tank: Tank) => howManyFish(tank.fish);

export function newTank(world: World, tank: Pick<Tank, 'lineId' | 'room' | 'fish'> & Partial<Tank>): Tank {
	return {
		...{ id: world.newId(), born: world.time, isSexed: tank.fish.unsexed === 0, isOver: false },
		...{ hadMales: tank.fish.males > 0, shutUntil: 0, metBefore: [], lastCount: world.time },
		...tank
	};
}

export function place(world: World): string {
	return world.dice.pick(tankPlaces);
}

export function startGroup(
	world: World,
	tank: Tank,
	words: { name: string; origin: Origin; stage: Stage | null; certainty?: Certainty },
	how: Writing
): EntryId {
	const { name, origin, stage, certainty = 'counted' } = words;
	const body = {
		...{ group: tank.id, line: tank.lineId, room: tank.room, name, tank: place(world), certainty, stage },
		...{ origin: origin as Parameters<typeof groupStarted.sentence>[0]['origin'], fish: { ...tank.fish } },
		room: world.room(tank.room).id
	};
	tank.lastCount = world.time;
	return world.write(groupStarted, body, how);
}

/** What only the fish know: some are gone, and nobody has noticed yet. */
export function loseUnseen(world: World, tank: Tank, ofTen: number): void {
	const keep = (count: number) => {
		let left = 0;
		for (let i = 0; i < count; i++) if (world.dice.next() * 10 < ofTen) left += 1;
		return left;
	};
	const { males, females, unsexed } = tank.fish;
	const keepOne = (before: number) => Math.max(Math.min(before, 1), keep(before));
	tank.fish = { males: keepOne(males), females: keepOne(females), unsexed: keep(unsexed) };
}

/** Counts what is there; now and then the number is wrong at first and is put right some days later. */
export function count(world: World, tank: Tank, certainty: 'counted' | 'about' = 'counted'): void {
	const by = world.keeper(tank.room);
	const body = { group: tank.id, room: world.room(tank.room).id, fish: { ...tank.fish }, certainty };
	tank.lastCount = world.time;
	if (certainty === 'about' || !world.dice.chance(0.06)) {
		world.write(groupCounted, body, { by });
		return;
	}
	const slip = addFish(tank.fish, {
		...noFish,
		[tank.isSexed ? 'females' : 'unsexed']: world.dice.whole(1, 3)
	});
	const wrong = world.write(groupCounted, { ...body, fish: slip }, { by });
	const happened = world.moment();
	world.after(world.dice.whole(1, 5), () => {
		if (!world.keepers(tank.room).includes(by)) return;
		if (world.dice.chance(0.5)) world.write(groupCounted, body, { by, corrects: [wrong], happened });
		else {
			const how = { by, happened };
			world.write(wordWithdrawn, { reason: world.dice.pick(countSlips) }, { ...how, corrects: [wrong] });
			world.write(groupCounted, body, how);
			world.tieTogether(2);
		}
	});
}

/** Fish are gone, and the keeper says so: that day, or on the day alone when nothing else happened on it. */
export function tellLoss(
	world: World,
	tank: Tank,
	fish: Fish,
	why: Why,
	cause = world.dice.pick(deathCauses)
): void {
	const gone = howManyFish(fish);
	if (gone === 0) return;
	tank.fish = addFish(tank.fish, fish, -1);
	const isQuiet = world.time - tank.lastCount > 2 * dayMs && world.now - world.time > 2 * dayMs;
	const happened = isQuiet && world.dice.chance(0.5) ? dayOf(world.time) : undefined;
	const body = {
		group: tank.id,
		room: world.room(tank.room).id,
		fish,
		why,
		cause: why === 'died' ? cause : ''
	};
	world.write(groupChanged, body, { by: world.keeper(tank.room), ...(happened ? { happened } : {}) });
}
type Why = Exclude<CountChange['why'], 'moved' | 'bagged' | 'given back' | 'arrived' | 'hatched'>;

/** One or two of those that are there, of whichever sex there are more: nobody's last male or female. */
export function few(world: World, tank: Tank, most: number): Fish {
	const gone = world.dice.whole(1, most);
	const { males, females, unsexed } = tank.fish;
	if (unsexed > gone) return { ...noFish, unsexed: gone };
	return males > females
		? { ...noFish, males: Math.min(gone, males - 1) }
		: { ...noFish, females: Math.max(0, Math.min(gone, females - 1)) };
}

/** So many fish out of `fish`: unsexed first, else by turns. */
export function take(fish: Fish, wanted: number, world: World): Fish {
	const taken = { males: 0, females: 0, unsexed: Math.min(wanted, fish.unsexed) };
	let isMale = world.dice.chance(0.4);
	for (let left = Math.min(wanted, howManyFish(fish)) - taken.unsexed; left > 0; left--) {
		const canMale = taken.males < fish.males;
		const canFemale = taken.females < fish.females;
		if ((isMale && canMale) || !canFemale) taken.males += 1;
		else taken.females += 1;
		isMale = !isMale;
	}
	return taken;
}

/** When something was seen: the day, at times only about; in the last days the moment. */
export function dayText(world: World): string {
	if (world.now - world.time < 4 * dayMs) return world.moment();
	return world.dice.chance(0.12) ? aboutDay(world.time) : dayOf(world.time);
}

export function reachStage(world: World, tank: Tank, stage: Stage): void {
	const body = { group: tank.id, room: world.room(tank.room).id, stage };
	world.write(groupStageReached, body, { by: world.keeper(tank.room), happened: dayText(world) });
}

/** Males and females can be told apart now. */
export function tellApart(world: World, tank: Tank): void {
	const { males, females, unsexed } = tank.fish;
	let newMales = 0;
	for (let i = 0; i < unsexed; i++) if (world.dice.chance(0.48)) newMales += 1;
	// A demonstration whose groups are all of one sex would soon be over.
	if (males === 0 && newMales === 0 && unsexed > 1) newMales = 1;
	if (females === 0 && newMales === unsexed && unsexed > 1) newMales -= 1;
	tank.fish = { males: males + newMales, females: females + unsexed - newMales, unsexed: 0 };
	tank.hadMales ||= tank.fish.males > 0;
	tank.isSexed = true;
}

export function nameGroup(world: World, tank: Tank): void {
	const name = `Young of ${new Date(tank.born).toLocaleString('en-GB', { month: 'long', timeZone: 'UTC' })}`;
	const body = { group: tank.id, room: world.room(tank.room).id, name, tank: place(world) };
	world.write(groupNamed, body, { by: world.keeper(tank.room) });
}

/** The group is no more: the rest goes, and the keeper says that it ended. */
export function endGroup(world: World, tank: Tank, why: Why, cause?: string): void {
	if (tank.isOver) return;
	tank.isOver = true;
	tellLoss(world, tank, tank.fish, why, cause);
	world.write(
		groupStageReached,
		{ group: tank.id, room: world.room(tank.room).id, stage: 'ended' },
		{ by: world.keeper(tank.room) }
	);
}

/** All or some fish go over to another group of the room. */
export function moveFish(world: World, from: Tank, to: Tank, fish: Fish): void {
	const body = { from: from.id, to: to.id, room: world.room(from.room).id, fish };
	from.fish = addFish(from.fish, fish, -1);
	to.fish = addFish(to.fish, fish);
	to.hadMales ||= fish.males > 0;
	if (from.isSexed) to.metBefore.push({ tank: from, until: world.time }, ...from.metBefore);
	world.write(groupMoved, body, { by: world.keeper(from.room) });
}

/** A look at a breeding group: now and then a loss that is told, or one that is not; often a count some days later. */
export function lookAfter(world: World, tank: Tank, isHeard: () => boolean): void {
	if (total(tank) > 5 && world.dice.chance(0.45)) tellLoss(world, tank, few(world, tank, 2), 'died');
	if (total(tank) > 6 && world.dice.chance(0.3)) loseUnseen(world, tank, 9);
	if (!world.dice.chance(0.6)) return;
	world.after(world.dice.whole(2, 6), () => {
		if (isHeard() && !tank.isOver && total(tank) > 0) count(world, tank);
	});
}
