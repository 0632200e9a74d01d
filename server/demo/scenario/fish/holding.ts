/** One room's life with one line: breeding group, broods, generations, and at last an end or silence. */
import { roomCheckedIn } from '#records/kinds/rooms/checkedIn.ts';
import { spawnSeen } from '#records/kinds/spawns/seen.ts';
import { noFish } from '#records/fishCount.ts';
import type { MemberId } from '#records/entry.ts';
import type { HoldingPlan } from '#server/demo/scenario/linePlans.ts';
import type { Line } from './line.ts';
import { raise, storeEggs, thinkAgain } from './brood.ts';
import { parentsSeen } from './parents.ts';
import {
	count,
	dayText,
	endGroup,
	lookAfter,
	loseUnseen,
	moveFish,
	newTank,
	reachStage,
	startGroup,
	take,
	tellApart,
	tellLoss,
	total,
	type Tank
} from './tank.ts';
import { dayMs, type World } from '#server/demo/scenario/world.ts';

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
			this.#tellSexes(tank);
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
		this.#tellSexes(tank);
		const settled = Math.max(this.world.dice.whole(31, 45), this.#daysToSexed(tank) + 4);
		this.world.after(settled, () => {
			if (!this.isHeard || tank.isOver || total(tank) === 0) return;
			const breeders = this.breeders;
			if (!breeders || breeders.isOver) this.breeders = tank;
			else if (breeders !== tank && tank.shutUntil < this.world.time) {
				loseUnseen(this.world, tank, 9.6);
				if (total(tank) > 0) moveFish(this.world, tank, breeders, tank.fish);
				endGroup(this.world, tank, 'let go');
			}
		});
	}

	#daysToSexed(tank: Tank): number {
		const sexed = this.line.life.stages.find(({ stage }) => stage === 'sexed')?.day ?? 60;
		return tank.isSexed ? 0 : Math.max(5, sexed - (this.world.time - tank.born) / dayMs);
	}

	/** Young that came unsexed are told apart when they are old enough. */
	#tellSexes(tank: Tank): void {
		if (tank.isSexed) return;
		this.world.after(this.#daysToSexed(tank), () => {
			if (!this.isHeard || tank.isOver || tank.isSexed || total(tank) === 0) return;
			tellApart(this.world, tank);
			reachStage(this.world, tank, 'sexed');
			count(this.world, tank);
		});
	}

	#spawn(): void {
		const { world, line } = this;
		if (!this.isHeard) return;
		world.after(line.life.everyDays * (0.95 + world.dice.next() * 0.6), () => this.#spawn());
		this.spawnNow();
	}

	/** A spawn or drop in the breeding group, if there can be one. */
	spawnNow(): void {
		const { world, line, breeders } = this;
		if (!this.isHeard || !breeders || breeders.isOver || breeders.fish.females === 0) return;
		if (breeders.fish.males === 0 && line.life.storedSpermDays === 0) return;
		const [fewest, most] = line.life.brood;
		const seen = world.dice.whole(fewest, most);
		const isCounted = line.life.sort === 'drop' && world.dice.chance(0.5);
		const brood = newTank(world, {
			lineId: line.id,
			room: this.plan.room,
			fish: { ...noFish, unsexed: seen }
		});
		const { mothers, fathers } = parentsSeen(world, breeders, line.life, this.#beside());
		const spawn = world.newId();
		const body = {
			...{
				spawn,
				brood: brood.id,
				line: line.id,
				room: this.roomId,
				inGroup: breeders.id,
				sort: line.life.sort
			},
			...{ mothers: { ...mothers, of: [...mothers.of] }, fathers: { ...fathers, of: [...fathers.of] } },
			...{
				stage: line.life.first,
				fish: brood.fish,
				certainty: isCounted ? ('counted' as const) : ('about' as const)
			}
		};
		world.write(spawnSeen, body, { by: this.keeper(), happened: dayText(world) });
		thinkAgain(world, brood, body, () => this.isHeard);
		this.young.push(brood);
		if (line.life.peatDays) this.#store(brood);
		else if (world.dice.chance(0.6)) this.#raise(brood);
		else
			world.after(world.dice.whole(4, 24), () => {
				if (this.isHeard) endGroup(world, brood, 'died', 'eaten, it seems');
			});
	}

	#beside(): Tank | null {
		return this.young.find((tank) => !tank.isOver && tank.isSexed && tank.fish.males > 0) ?? null;
	}

	#raise(brood: Tank): void {
		raise(
			this.world,
			this.line.life,
			brood,
			() => this.isHeard && !brood.isOver,
			() => this.#grown(brood)
		);
	}

	#store(eggs: Tank): void {
		if (!this.young.includes(eggs)) this.young.push(eggs);
		storeEggs(
			this.world,
			this.line.life,
			eggs,
			() => this.isHeard && !eggs.isOver,
			() => this.#raise(eggs)
		);
	}

	/** Grown: the next generation, or fish for others until they are let go. */
	#grown(brood: Tank): void {
		const { world, line, breeders } = this;
		if (!this.isHeard || brood.isOver) return;
		if (!brood.isSexed) tellApart(world, brood);
		const age = breeders ? world.time - breeders.born : Infinity;
		const isDue =
			!breeders || breeders.isOver || age > line.life.generationDays * dayMs || total(breeders) < 4;
		if (isDue && brood.fish.males > 0 && brood.fish.females > 0) this.#renew(brood, breeders);
		else world.after(world.dice.whole(50, 110), () => this.#clear(brood));
	}

	#renew(brood: Tank, old: Tank | null): void {
		const { world, line } = this;
		const { males, females } = line.life.founders;
		const fish = {
			males: Math.min(males, brood.fish.males),
			females: Math.min(females, brood.fish.females),
			unsexed: 0
		};
		const next = newTank(world, {
			...{ lineId: line.id, room: this.plan.room, fish, born: brood.born },
			metBefore: [{ tank: brood, until: world.time }]
		});
		const born = new Date(brood.born);
		const month = born.toLocaleDateString('en-GB', { month: 'short', timeZone: 'UTC' }).slice(0, 3);
		const name = `Breeders ${month} ${born.getUTCFullYear()}`;
		startGroup(
			world,
			next,
			{ name, origin: { from: 'group', groups: [brood.id] }, stage: 'adult' },
			{ by: this.keeper() }
		);
		brood.fish = {
			...brood.fish,
			males: brood.fish.males - fish.males,
			females: brood.fish.females - fish.females
		};
		this.breeders = next;
		if (total(brood) === 0) endGroup(world, brood, 'let go');
		else world.after(world.dice.whole(60, 130), () => this.#clear(brood));
		world.after(world.dice.whole(10, 40), () => {
			if (old && this.isHeard && old.shutUntil < world.time)
				endGroup(world, old, world.dice.chance(0.6) ? 'died' : 'let go', 'old age');
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
		if (breeders && !breeders.isOver) lookAfter(world, breeders, () => this.isHeard);
	}

	#end(why: 'died' | 'let go'): void {
		const { world } = this;
		if (!this.isHeard) return;
		for (const tank of [this.breeders, ...this.young]) if (tank) endGroup(world, tank, why, 'heater stuck');
		const body = {
			room: this.roomId,
			line: this.line.id,
			has: 'no' as const,
			breeding: 'no' as const,
			note: ''
		};
		world.write(roomCheckedIn, body, { by: this.keeper() });
		this.isOver = true;
	}
}
