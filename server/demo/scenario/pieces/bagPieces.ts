/**
 * Bags that need a look: one that two people saw differently, with a dispute nobody has decided; one logged on two
 * phones; two with one number; bags given back, lost, without a label, told by somebody with no part in them.
 */
import { bagBagged } from '#records/kinds/bags/bagged.ts';
import { bagFailed } from '#records/kinds/bags/failed.ts';
import { bagGivenBack } from '#records/kinds/bags/givenBack.ts';
import { bagParted } from '#records/kinds/bags/parted.ts';
import { bagSettled } from '#records/kinds/bags/settled.ts';
import { wordDisputed } from '#records/kinds/words/disputed.ts';
import { addFish } from '#records/fishCount.ts';
import type { ThingId } from '#records/entry.ts';
import type { Fish } from '#records/state.ts';
import { arrive, bagTo, bagUp, handOver, without, type Bag } from '#server/demo/scenario/fish/bag.ts';
import { fishToGive } from '#server/demo/scenario/exchange.ts';
import type { Stage } from './stage.ts';
import { dayMs } from '#server/demo/scenario/world.ts';

const minuteMs = 60_000;

export function playBagPieces(stage: Stage): void {
	const { world } = stage;
	world.at(stage.meeting('before last').at + 70 * minuteMs, () => disputed(stage));
	world.at(stage.meeting('last').at + 70 * minuteMs, () => twoPhones(stage));
	world.at(stage.meeting('last').at + 80 * minuteMs, () => oneNumberTwice(stage, false));
	world.at(stage.meeting('last').at + 90 * minuteMs, () => toldByNell(stage));
	stage.ago(180, () => oneNumberTwice(stage, true));
	stage.ago(150, () => lookedAt(stage));
	stage.ago(130, () => givenBack(stage));
	stage.ago(75, () => withoutLabel(stage));
}

/** Packs fish of whatever line can give some. */
function pack(stage: Stage, meeting: ThingId | null, words: { number?: string; note?: string } = {}): Bag {
	const { world } = stage;
	const { line, gift, to } = stage.move();
	return bagUp(world, {
		...{ line, gift, to, meeting, exchange: null },
		fish: fishToGive(world, gift),
		...words
	});
}

/** What the receiver says was in the bag, as an entry of its own. */
function sayContents(stage: Stage, bag: Bag, fish: Fish, id: ThingId, by: string) {
	const { line, gift, meeting } = bag.plan;
	const body = {
		...{ bag: id, number: bag.number, line: line.id, contents: [{ group: null, fish }] },
		...{ fromRoom: gift.holding.roomId, to: bagTo(bag.plan.to), meeting, exchange: null, note: '' }
	};
	return stage.world.write(bagBagged, body, { by, offlineHours: meeting ? 12 : 0 });
}

const receiver = (stage: Stage, bag: Bag) =>
	'keeper' in bag.plan.to ? bag.plan.to.keeper() : stage.world.member('tobin').id;

/** Two statements that differ, and a dispute that waits for the coordinator. */
function disputed(stage: Stage): void {
	const { world } = stage;
	const bag = pack(stage, stage.meeting('before last').id);
	const fewer = without(bag.plan.fish, 2);
	world.after(1, () => {
		const by = receiver(stage, bag);
		sayContents(stage, bag, fewer, bag.id, by);
		arrive(world, bag, 0, fewer);
		const reason = 'There were two fewer in the bag, and it was tied shut. I counted twice.';
		world.write(wordDisputed, { entry: bag.bagged, reason }, { by });
	});
}

/** Giver and receiver each log the same label, without signal; the numbers join them, one fish apart. */
function twoPhones(stage: Stage): void {
	const { world } = stage;
	const bag = pack(stage, stage.meeting('last').id);
	const other = world.newId();
	const fish = without(bag.plan.fish, 1);
	sayContents(stage, bag, fish, other, receiver(stage, bag));
	world.at(world.time + 2 * 3_600_000, () => arrive(world, { ...bag, id: other }, 0, fish));
}

/** A label read wrongly: two bags carry one number and cannot be one. Half a year ago somebody parted such a pair. */
function oneNumberTwice(stage: Stage, isParted: boolean): void {
	const { world } = stage;
	const meeting = isParted ? null : stage.meeting('last').id;
	const first = pack(stage, meeting);
	const second = pack(stage, meeting, { number: first.number });
	world.at(world.time + 2 * 3_600_000, () => arrive(world, first, 0));
	world.at(world.time + 3 * 3_600_000, () => arrive(world, second, 0));
	if (isParted)
		world.after(3, () =>
			world.write(
				bagParted,
				{ bags: [first.id, second.id], meeting: null },
				{ by: first.plan.gift.holding.keeper() }
			)
		);
}

/** A newcomer logs a bag of others: it waits for one tap of somebody who had a part in it. */
function toldByNell(stage: Stage): void {
	const { world } = stage;
	const { line, gift, to } = stage.move();
	const body = {
		...{ bag: world.newId(), number: world.bagNumber(world.member('nell').id), line: line.id },
		...{
			contents: [{ group: null, fish: { males: 0, females: 0, unsexed: 4 } }],
			fromRoom: gift.holding.roomId
		},
		...{ to: bagTo(to), meeting: stage.meeting('last').id, exchange: null, note: 'I held the torch.' }
	};
	world.write(bagBagged, body, { by: world.member('nell').id, offlineHours: 14 });
}

/** A difference that two keepers have talked about. */
function lookedAt(stage: Stage): void {
	const { world } = stage;
	const bag = pack(stage, null);
	world.at(world.time + 3_600_000, () => handOver(world, bag, 'receiver'));
	world.at(world.time + 2 * 3_600_000, () => {
		arrive(world, bag, 0, without(bag.plan.fish, 1));
		const by = receiver(stage, bag);
		const body = { bag: bag.id, room: null, note: 'We talked: one stayed behind in the net.' };
		world.after(2, () => world.write(bagSettled, body, { by }));
	});
}

/** Nobody came for it: the fish are back in their tank. */
function givenBack(stage: Stage): void {
	const { world } = stage;
	const bag = pack(stage, null);
	const { tank, holding } = bag.plan.gift;
	world.after(1, () => {
		tank.fish = addFish(tank.fish, bag.plan.fish);
		world.write(
			bagGivenBack,
			{ bag: bag.id, room: holding.roomId, note: 'Nobody came for it.' },
			{ by: holding.keeper() }
		);
	});
}

/** No label to hand; and another that did not get there. */
function withoutLabel(stage: Stage): void {
	const { world } = stage;
	const bare = pack(stage, null, {
		number: '',
		note: 'No label left. Written on tape: for the green bucket.'
	});
	world.at(world.time + 3_600_000, () => arrive(world, bare, 0));
	const lost = pack(stage, null);
	world.at(world.time + dayMs, () => {
		const body = {
			bag: lost.id,
			room: null,
			how: 'elsewhere' as const,
			note: 'Went home with a visitor by mistake.'
		};
		world.write(bagFailed, body, { by: lost.plan.gift.holding.keeper() });
	});
}
