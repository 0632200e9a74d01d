/** Meetings every four weeks: planned, attended, and the bags that change hands there. */
import { meetingAttending } from '#records/kinds/meetings/attending.ts';
import { meetingCalledOff } from '#records/kinds/meetings/calledOff.ts';
import { meetingPlanned } from '#records/kinds/meetings/planned.ts';
import type { ThingId } from '#records/entry.ts';
import { carry } from '#server/demo/scenario/fish/bag.ts';
import { agree, answer, callOff, fishToGive, isStillThere, propose } from './exchange.ts';
import { Holding } from '#server/demo/scenario/fish/holding.ts';
import { type HeldLine, giftOf } from '#server/demo/scenario/fish/gift.ts';
import type { HoldingPlan } from './linePlans.ts';
import { guests, meetingPlace, outsideRooms, rooms } from './names.ts';
import { newTank, place, startGroup } from '#server/demo/scenario/fish/tank.ts';
import { dayMs, dayOf, type World } from './world.ts';

export interface Meeting {
	readonly id: ThingId;
	/** Midday of that day, ms since 1970. */
	readonly at: number;
}

const everyDays = 28;
const planAheadDays = 34;
/** The next meeting lies this many days ahead, so that the hall is in reach of the demonstration. */
const nextInDays = 12;
/** One winter meeting was called off. */
const snowedIn = 10;

/** All meetings, the next one last. */
export function meetingDays(world: World): Meeting[] {
	const next = world.hour(world.now + nextInDays * dayMs, 13);
	const days: Meeting[] = [];
	for (let at = next; at > world.start + 3 * dayMs; at -= everyDays * dayMs)
		days.unshift({ id: world.newId(), at });
	return days;
}

/** A holding that begins with a bag from another room waits for the first meeting after its month. */
export interface Starting {
	readonly line: HeldLine;
	readonly holding: Holding;
	readonly plan: HoldingPlan;
	isDone: boolean;
}

export function planMeetings(
	world: World,
	meetings: readonly Meeting[],
	lines: readonly HeldLine[],
	starting: readonly Starting[]
): void {
	meetings.forEach((meeting, i) => {
		world.at(Math.max(meeting.at - planAheadDays * dayMs, world.start + 2 * dayMs), () => {
			const date = dayOf(meeting.at);
			const isShow = i % 13 === 8;
			const name = isShow ? 'Autumn show' : i % 13 === 2 ? 'Spring auction' : 'Club evening';
			const officer = world.dice.pick(['maud', 'tobin'] as const);
			world.write(
				meetingPlanned,
				{ meeting: meeting.id, name, date, place: meetingPlace },
				{ by: world.member(officer).id }
			);
		});
		for (const { key } of rooms)
			if (world.dice.chance(0.2))
				world.at(world.hour(meeting.at - world.dice.whole(1, 9) * dayMs, 18), () => {
					if (world.keepers(key).length > 0) attend(world, meeting, key);
				});
		if (i === snowedIn) {
			world.at(meeting.at - dayMs, () =>
				world.write(meetingCalledOff, { meeting: meeting.id }, { by: world.member('tobin').id })
			);
			return;
		}
		world.at(meeting.at - 23 * dayMs, () => refresh(world, meeting, lines));
		world.at(meeting.at, () => {
			for (const start of starting)
				if (world.time >= world.month(start.plan.from)) beginWithBag(world, meeting, start);
			if (world.dice.chance(0.5)) giveAway(world, meeting, lines);
		});
	});
}

export function attend(
	world: World,
	meeting: Meeting,
	room: (typeof rooms)[number]['key'],
	coming = world.dice.chance(0.8)
): void {
	world.write(
		meetingAttending,
		{ meeting: meeting.id, room: world.room(room).id, coming },
		{ by: world.keeper(room) }
	);
}

/** The coordinators' autumn and spring work: who gets new blood, and whether they want it. */
function refresh(world: World, meeting: Meeting, lines: readonly HeldLine[]): void {
	for (let tries = world.dice.whole(1, 2); tries > 0; tries--) {
		const line = world.dice.pick(lines);
		const places = line.holdings.filter(
			(holding) => holding.isHeard && holding.breeders && !holding.breeders.isOver
		);
		if (places.length < 2 || world.now < meeting.at) continue;
		const exchange = propose(world, line, world.dice.pick(places), meeting.id, true);
		if (!exchange) continue;
		const throwOf = world.dice.next();
		if (throwOf < 0.1) world.after(3, () => answerIfThere(world, exchange, 'no'));
		else if (throwOf < 0.16) world.after(3, () => answerIfThere(world, exchange, 'later'));
		else if (throwOf < 0.22)
			world.after(9, () => callOff(world, exchange, 'The fish were needed elsewhere.'));
		else {
			agree(world, exchange, 8);
			world.at(meeting.at + 10 * 60_000, () => {
				const canReceive = exchange.to.isHeard && world.keepers(exchange.to.plan.room).length > 0;
				if (isStillThere(exchange) && canReceive) carry(world, { ...exchange, exchange: exchange.id });
				else callOff(world, exchange, 'Too few fish left when the day came.');
			});
		}
	}
}

function answerIfThere(
	world: World,
	exchange: NonNullable<ReturnType<typeof propose>>,
	word: 'no' | 'later'
): void {
	if (world.keepers(exchange.to.plan.room).length === 0) return;
	const until = word === 'later' ? dayOf(world.time + 90 * dayMs) : '';
	answer(world, exchange, exchange.to, { answer: word, until });
}

function beginWithBag(world: World, meeting: Meeting, start: Starting): void {
	if (start.isDone || world.keepers(start.plan.room).length === 0) return;
	const { line, holding, plan } = start;
	const from = plan.start === 'founders' || plan.start === 'old list' ? undefined : plan.start;
	// A newcomer's first bag: females alone, mated before they came.
	const mothers =
		plan.room === 'nook' ? giftOf(world, line, plan.room, { suits: ({ fish }) => fish.females > 4 }) : null;
	const gift =
		mothers ?? giftOf(world, line, plan.room, from ? { from } : {}) ?? giftOf(world, line, plan.room);
	const isLate = world.time > world.month(plan.from) + 100 * dayMs;
	if (!gift && !isLate) return;
	start.isDone = true;
	if (gift) {
		const fish = mothers ? { males: 0, females: 4, unsexed: 0 } : fishToGive(world, gift);
		carry(world, { line, gift, fish, to: holding, meeting: meeting.id, exchange: null });
		if (mothers) world.after(22, () => holding.spawnNow());
		return;
	}
	const tank = newTank(world, { lineId: line.id, room: plan.room, fish: line.life.founders });
	const origin = { from: 'founders' as const, source: 'brought by a visitor', related: 'not known' as const };
	startGroup(
		world,
		tank,
		{ name: `New fish, ${place(world)}`, origin, stage: 'adult' },
		{ by: holding.keeper() }
	);
	holding.begin(tank);
}

/** A bag for somebody who is not in the club: the fish leave its record. */
function giveAway(world: World, meeting: Meeting, lines: readonly HeldLine[]): void {
	const line = world.dice.pick(lines);
	const gift = giftOf(world, line, null);
	if (!gift || gift.tank === gift.holding.breeders || gift.isEggs) return;
	const to = world.dice.chance(0.7)
		? { to: 'guest' as const, name: world.dice.pick(guests) }
		: { to: 'outside' as const, name: world.dice.pick(outsideRooms) };
	carry(world, { line, gift, fish: fishToGive(world, gift), to, meeting: meeting.id, exchange: null });
}
