/** Exchanges in every state, so that each can be seen; two agreed ones wait for the next meeting. */
import { bagFailed } from '#records/kinds/bags/failed.ts';
import type { ThingId } from '#records/entry.ts';
import { howManyFish } from '#records/fishCount.ts';
import { arrive, bagUp, handOver, weekLater, type Bag } from '#server/demo/scenario/fish/bag.ts';
import { answer, ask, callOff, propose, type Exchange } from '#server/demo/scenario/exchange.ts';
import { attend } from '#server/demo/scenario/meetings.ts';
import type { Stage } from './stage.ts';
import { take } from '#server/demo/scenario/fish/tank.ts';
import { dayMs, dayOf } from '#server/demo/scenario/world.ts';

const hourMs = 3_600_000;

export function playExchangePieces(stage: Stage): void {
	const { world } = stage;
	const next = stage.meeting('next').id;
	stage.ago(3, () => offer(stage, next, false));
	stage.ago(5, () => {
		const exchange = offer(stage, next, true);
		later(stage, 1, () => answer(world, exchange, exchange.gift.holding, { answer: 'yes' }));
	});
	stage.ago(13, () => yesFromBoth(stage, offer(stage, next, true), false));
	stage.ago(12, () => yesFromBoth(stage, offer(stage, next, true), true));
	// Asked for the last meeting, which passed without an answer.
	world.at(stage.meeting('last').at - 9 * dayMs, () => {
		const exchange = offer(stage, stage.meeting('last').id, true);
		later(stage, 2, () => answer(world, exchange, exchange.to, { answer: 'yes' }));
	});
	stage.ago(41, () => refuse(stage, 'no'));
	stage.ago(26, () => refuse(stage, 'later'));
	stage.ago(33, () => {
		const exchange = offer(stage, null, false);
		later(stage, 2, () => ask(world, exchange));
		later(stage, 6, () => callOff(world, exchange, 'A fin looked wrong. Better not now.'));
	});
	stage.ago(9, () => done(stage, 8, 'bagged'));
	stage.ago(11, () => done(stage, 8, 'handed over'));
	stage.ago(14, () => done(stage, 9, 'arrived'));
	stage.ago(52, () => done(stage, 8, 'settled'));
	stage.ago(118, () => done(stage, 8, 'failed'));
	comeToTheNext(stage);
}

function later(stage: Stage, days: number, act: () => void): void {
	stage.world.at(stage.world.time + days * dayMs + hourMs, act);
}

/** Proposes, and keeps the fish back for it. */
function offer(stage: Stage, meeting: ThingId | null, asked: boolean): Exchange {
	const { line, to } = stage.move();
	const exchange = propose(stage.world, line, to, meeting, asked);
	if (!exchange) throw new RangeError('offer requires fish to give');
	exchange.gift.tank.shutUntil = stage.world.time + 30 * dayMs;
	return exchange;
}

function yesFromBoth(stage: Stage, exchange: Exchange, byPhone: boolean): void {
	later(stage, 1, () => answer(stage.world, exchange, exchange.gift.holding, { answer: 'yes' }));
	later(stage, 2, () => answer(stage.world, exchange, exchange.to, { answer: 'yes', byPhone }));
}

function refuse(stage: Stage, word: 'no' | 'later'): void {
	const exchange = offer(stage, null, true);
	const until = word === 'later' ? dayOf(stage.world.now + 60 * dayMs) : '';
	later(stage, 3, () => answer(stage.world, exchange, exchange.to, { answer: word, until }));
}

/** Agreed, then as far as the bag has come. */
function done(
	stage: Stage,
	days: number,
	as: 'bagged' | 'handed over' | 'arrived' | 'settled' | 'failed'
): void {
	const { world } = stage;
	const exchange = offer(stage, null, true);
	yesFromBoth(stage, exchange, false);
	later(stage, days, () => {
		const { gift, line, to, id } = exchange;
		const fish = take(
			gift.tank.fish,
			Math.min(howManyFish(exchange.fish), howManyFish(gift.tank.fish) - 1),
			world
		);
		const bag: Bag = bagUp(world, { ...{ line, gift, to, fish }, meeting: null, exchange: id });
		if (as === 'bagged') return;
		world.at(world.time + hourMs, () => handOver(world, bag, 'giver'));
		world.at(world.time + 3 * hourMs, () => {
			if (as === 'handed over') return;
			if (as === 'failed') {
				const body = {
					bag: bag.id,
					room: to.roomId,
					how: 'died' as const,
					note: 'The bag leaked on the way. Nobody could have known.'
				};
				return void world.write(bagFailed, body, { by: to.keeper() });
			}
			const arrived = arrive(world, bag, 0);
			if (as === 'settled' && arrived) later(stage, 7, () => weekLater(world, bag, arrived.tank));
		});
	});
}

function comeToTheNext(stage: Stage): void {
	const meeting = stage.meeting('next');
	(['harbour', 'spring', 'mill', 'attic', 'peat', 'lower', 'nook'] as const).forEach((room, i) =>
		stage.ago(1.2 + i * 0.9, () => attend(stage.world, meeting, room, room !== 'attic'))
	);
}
