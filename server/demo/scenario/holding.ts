/** One room's life with one line: breeding group, broods, generations, and at last an end or silence. */
import { groupEggsStored } from '#records/kinds/groups/eggsStored.ts';
import { roomCheckedIn } from '#records/kinds/rooms/checkedIn.ts';
import { spawnSeen } from '#records/kinds/spawns/seen.ts';
import { spawnParentsSaid } from '#records/kinds/spawns/parentsSaid.ts';
import { noFish } from '#records/fishCount.ts';
import type { MemberId } from '#records/entry.ts';
import type { HoldingPlan } from './names.ts';
import type { Line } from './line.ts';
import { parentsSeen } from './parents.ts';
import {
	count,
	endGroup,
	few,
	loseUnseen,
	moveFish,
	newTank,
	reachStage,
	startGroup,
	take,
	tellLoss,
	total,
	type Tank
} from './tank.ts';
import { aboutDay, dayMs, dayOf, type World } from './world.ts';

export class Holding {
	readonly world: World;
	readonly line: Line;
	readonly plan: HoldingPlan;
	breeders: Tank | null = null;
	young: Tank[] = [];
	isOver = false;
	#isRunning = false;

	constructor(world: World, line: Line, plan: HoldingPlan) {
		this.world = world;
		this.line = line;
		this.plan = plan;
	}

	/** Whether the room still has fish of the line and tells of them. */
	get isHeard(): boolean {
		const { silent } = this.plan;
		const isSilent = silent !== undefined && this.world.time >= this.world.month(silent);
		return this.#isRunning && !this.isOver && !isSilent && this.world.keepers(this.plan.room).length > 0;
	}
	get roomId() {
		return this.world.room(this.plan.room).id;
	}
	keeper(): MemberId {
		return this.world.keeper(this.plan.room);
	}

	/** The first fish are here. Egg layers and livebearers alike begin when they have settled. */
	begin(tank: Tank, isEggs = false): void {
		this.#isRunning = true;
		if (isEggs) this.#store(tank);
		else {
			this.breeders = tank;
			this.world.after(this.world.dice.whole(35, 80), () => this.#spawn());
		}
		this.world.after(this.world.dice.whole(40, 90), () => this.#look());
		const { ends, why = 'died' } = this.plan;
		if (ends !== undefined) this.world.at(this.world.month(ends), () => this.#end(why));
	}

	/** New blood: after quarantine it joins the breeding group. */
	receive(tank: Tank, isEggs: boolean): void {
		if (!this.#isRunning || (!this.breeders && !isEggs)) return this.begin(tank, isEggs);
		if (isEggs) return this.#store(tank);
		this.world.after(this.world.dice.whole(31, 45), () => {
			if (!this.isHeard || tank.isOver) return;
			loseUnseen(this.world, tank, 9.6);
			const breeders = this.breeders;
			if (!breeders || breeders.isOver || breeders === tank) this.breeders = tank;
			else if (total(tank) === 0) endGroup(this.world, tank, 'died');
			else if (!tank.isSexed) this.young.push(tank);
			else {
				moveFish(this.world, tank, breeders, tank.fish);
				endGroup(this.world, tank, 'let go');
			}
		});
	}

	#spawn(): void {
		const { world, line, breeders } = this;
		if (!this.isHeard) return;
		world.after(line.life.everyDays * (0.7 + world.dice.next() * 0.6), () => this.#spawn());
		if (!breeders || breeders.isOver || breeders.fish.females === 0) return;
		if (breeders.fish.males === 0 && line.life.storedSpermDays === 0) return;
		const [fewest, most] = line.life.brood;
		const seen = world.dice.whole(fewest, most);
		const isCounted = line.life.sort === 'drop' && world.dice.chance(0.5);
		const brood = newTank(world, { lineId: line.id, room: this.plan.room, fish: { ...noFish, unsexed: seen } });
		const { mothers, fathers } = parentsSeen(world, breeders, line.life, this.#beside());
		const spawn = world.newId();
		const body = {
			...{ spawn, brood: brood.id, line: line.id, room: this.roomId, inGroup: breeders.id, sort: line.life.sort },
			...{ mothers: { ...mothers, of: [...mothers.of] }, fathers: { ...fathers, of: [...fathers.of] } },
			...{ stage: line.life.first, fish: brood.fish, certainty: isCounted ? ('counted' as const) : ('about' as const) }
		};
		world.write(spawnSeen, body, { by: this.keeper(), happened: this.#dayText() });
		this.#thinkAgain(spawn, body);
		this.young.push(brood);
		if (line.life.peatDays) this.#store(brood);
		else if (world.dice.chance(0.68)) this.#raise(brood, 0);
		else
			world.after(world.dice.whole(4, 24), () => {
				if (this.isHeard) endGroup(world, brood, 'died', 'eaten, it seems');
			});
	}

	/** Weeks later the young tell more of their fathers than anybody saw. */
	#thinkAgain(spawn: string, { mothers, fathers }: { mothers: Parents; fathers: Parents }): void {
		const first = fathers.of[0];
		if (!first || fathers.of.length < 2 || !this.world.dice.chance(0.35)) return;
		this.world.after(this.world.dice.whole(40, 90), () => {
			if (!this.isHeard) return;
			const of = fathers.of.map((father, i) => ({ ...father, standing: i === 1 ? ('ruled out' as const) : ('likely' as const) }));
			const body = { spawn, room: this.roomId, mothers, fathers: { ...fathers, of } };
			this.world.write(spawnParentsSaid, body, { by: this.keeper() });
		});
	}

	#beside(): Tank | null {
		return this.young.find((tank) => !tank.isOver && tank.isSexed && tank.fish.males > 0) ?? null;
	}

	#dayText(): string {
		const { world } = this;
		if (world.now - world.time < 4 * dayMs) return world.moment();
		return world.dice.chance(0.12) ? aboutDay(world.time) : dayOf(world.time);
	}

	/** Eggs go into damp peat: an egg bag with its days to check and to wet. */
	#store(eggs: Tank): void {
		const { world, line } = this;
		const [soonest, latest] = line.life.peatDays ?? [100, 150];
		const days = world.dice.whole(soonest, latest);
		if (!this.young.includes(eggs)) this.young.push(eggs);
		world.after(1, () => {
			if (!this.isHeard) return;
			const due = (day: number) => dayOf(world.time + day * dayMs);
			const body = {
				...{ group: eggs.id, room: this.roomId, label: `egg bag ${dayOf(eggs.born).slice(2, 7)}` },
				...{ checkDue: due(days - 25), wetDue: due(days) }
			};
			world.write(groupEggsStored, body, { by: this.keeper() });
		});
		world.after(days + world.dice.whole(0, 12), () => {
			if (this.isHeard && !eggs.isOver) this.#raise(eggs, 0);
		});
	}

	#raise(brood: Tank, from: number): void {
		const { world, line } = this;
		for (const { stage, day, ofTen } of line.life.stages) {
			const step = () => {
				if (!this.isHeard || brood.isOver) return;
				loseUnseen(world, brood, ofTen);
				if (total(brood) < 2) return endGroup(world, brood, 'died');
				if (stage === 'sexed') this.#sex(brood);
				if (stage === 'sexed' || world.dice.chance(0.75)) reachStage(world, brood, stage);
				if (stage === 'sexed') count(world, brood);
				else if (world.dice.chance(0.4)) count(world, brood, 'about');
			};
			if (day === 0) step();
			else world.after(day - from + world.dice.whole(0, 3), step);
		}
		world.after(line.life.matureDays - from, () => this.#grown(brood));
	}

	#sex(brood: Tank): void {
		const { males, females, unsexed } = brood.fish;
		let newMales = 0;
		for (let i = 0; i < unsexed; i++) if (this.world.dice.chance(0.48)) newMales += 1;
		brood.fish = { males: males + newMales, females: females + unsexed - newMales, unsexed: 0 };
		brood.isSexed = true;
	}

	/** Grown: the next generation, or fish for others until they are let go. */
	#grown(brood: Tank): void {
		const { world, line, breeders } = this;
		if (!this.isHeard || brood.isOver) return;
		if (!brood.isSexed) this.#sex(brood);
		const age = breeders ? world.time - breeders.born : Infinity;
		const isDue = !breeders || breeders.isOver || age > line.life.generationDays * dayMs || total(breeders) < 4;
		if (isDue && brood.fish.males > 0 && brood.fish.females > 0) this.#renew(brood, breeders);
		else world.after(world.dice.whole(50, 110), () => this.#clear(brood));
	}

	#renew(brood: Tank, old: Tank | null): void {
		const { world, line } = this;
		const { males, females } = line.life.founders;
		const fish = { males: Math.min(males, brood.fish.males), females: Math.min(females, brood.fish.females), unsexed: 0 };
		const next = newTank(world, {
			...{ lineId: line.id, room: this.plan.room, fish, born: brood.born },
			metBefore: [{ tank: brood, until: world.time }]
		});
		const name = `Breeders from ${new Date(brood.born).toISOString().slice(0, 7)}`;
		startGroup(world, next, { name, origin: { from: 'group', groups: [brood.id] }, stage: 'adult' }, { by: this.keeper() });
		brood.fish = { ...brood.fish, males: brood.fish.males - fish.males, females: brood.fish.females - fish.females };
		this.breeders = next;
		if (total(brood) === 0) endGroup(world, brood, 'let go');
		else world.after(world.dice.whole(60, 130), () => this.#clear(brood));
		world.after(world.dice.whole(10, 40), () => {
			if (old && this.isHeard && old.shutUntil < world.time) endGroup(world, old, world.dice.chance(0.6) ? 'died' : 'let go', 'old age');
		});
		// The yearly round goes on by itself once a group has spawned here.
		if (old === null) world.after(world.dice.whole(20, 50), () => this.#spawn());
	}

	#clear(brood: Tank): void {
		const { world } = this;
		if (!this.isHeard || brood.isOver || brood === this.breeders || brood.shutUntil > world.time) return;
		const kept = total(brood);
		if (kept > 12 && world.dice.chance(0.5)) {
			tellLoss(world, brood, take(brood.fish, kept - 8, world), 'rehomed');
			world.after(world.dice.whole(60, 120), () => this.#clear(brood));
		} else endGroup(world, brood, world.dice.chance(0.7) ? 'rehomed' : 'let go');
	}

	/** A look at the breeding group every few months: a count, now and then a loss. */
	#look(): void {
		const { world, breeders } = this;
		if (!this.isHeard) return;
		world.after(world.dice.whole(60, 120), () => this.#look());
		if (!breeders || breeders.isOver) return;
		if (total(breeders) > 5 && world.dice.chance(0.45)) tellLoss(world, breeders, few(world, breeders, 2), 'died');
		if (total(breeders) > 6 && world.dice.chance(0.3)) loseUnseen(world, breeders, 9);
		if (world.dice.chance(0.6)) world.after(world.dice.whole(2, 6), () => {
			if (this.isHeard && !breeders.isOver && total(breeders) > 0) count(world, breeders);
		});
	}

	#end(why: 'died' | 'let go'): void {
		const { world } = this;
		if (!this.isHeard) return;
		for (const tank of [this.breeders, ...this.young]) if (tank) endGroup(world, tank, why, 'heater stuck');
		const body = { room: this.roomId, line: this.line.id, has: 'no' as const, breeding: 'no' as const, note: '' };
		world.write(roomCheckedIn, body, { by: this.keeper() });
		this.isOver = true;
	}
}

type Parents = Parameters<typeof spawnParentsSaid.sentence>[0]['fathers'];
