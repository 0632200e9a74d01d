/** The club itself: people and rooms come and go, lines are opened and described, "still have them?" is asked. */
import { lineDescribed } from '#records/kinds/lines/described.ts';
import { lineOpened } from '#records/kinds/lines/opened.ts';
import { lineRulesSet } from '#records/kinds/lines/rulesSet.ts';
import { lineStandardSet } from '#records/kinds/lines/standardSet.ts';
import { lineStateSaid } from '#records/kinds/lines/stateSaid.ts';
import { roomCheckedIn } from '#records/kinds/rooms/checkedIn.ts';
import { fishLife } from '#server/demo/scenario/fish/fishLife.ts';
import { Holding } from '#server/demo/scenario/fish/holding.ts';
import type { HeldLine } from '#server/demo/scenario/fish/gift.ts';
import { lines, type HoldingPlan, type LinePlan } from './linePlans.ts';
import { laterList, members, rooms, type MemberPlan } from './names.ts';
import type { Meeting, Starting } from './meetings.ts';
import { newTank, startGroup, total } from '#server/demo/scenario/fish/tank.ts';
import { aboutMonth, dayMs, monthMs, type World } from './world.ts';

/** Days after the last month of a holding, so that its end is told before the keeper leaves. */
const packingDays = 6;
const censusDays = 105;

export function openClub(world: World): void {
	const [maud, tobin] = [world.member('maud').id, world.member('tobin').id];
	world.at(world.start, () => {
		world.fact({ fact: 'club opened', by: null });
		for (const member of members.filter(({ joins }) => joins === 0)) {
			const by = member.key === 'maud' ? null : maud;
			world.fact({ fact: 'member joined', by, member: world.member(member.key).id, name: member.name });
			if (member.key === 'maud')
				world.fact({ fact: 'role given', by: null, member: maud, role: 'officer', of: null });
		}
		world.fact({ fact: 'role given', by: maud, member: tobin, role: 'officer', of: null });
		for (const { key, opens } of rooms) if (opens === 0) openRoom(world, key);
	});
	for (const member of members as readonly MemberPlan[]) {
		const id = world.memberById(world.members.find(({ key }) => key === member.key)?.id ?? '').id;
		if (member.joins > 0)
			world.at(world.month(member.joins), () =>
				world.fact({ fact: 'member joined', by: tobin, member: id, name: member.name })
			);
		if (member.leaves !== undefined)
			world.at(world.month(member.leaves) + packingDays * dayMs, () =>
				world.fact({ fact: 'member left', by: tobin, member: id })
			);
	}
	for (const { key, opens } of rooms)
		if (opens > 0) world.at(world.month(opens) + dayMs / 4, () => openRoom(world, key));
	// Two years on, Sanna's neighbour old_bucket helps in her room.
	world.at(world.month(24), () =>
		world.fact({
			fact: 'keeper added',
			by: maud,
			room: world.room('brook').id,
			member: world.member('bucket').id
		})
	);
}

function openRoom(world: World, key: (typeof rooms)[number]['key']): void {
	const keepers = rooms.find((room) => room.key === key)?.keepers ?? [];
	const ids = keepers.map((keeper) => world.member(keeper).id);
	world.fact({ fact: 'room opened', by: world.member('maud').id, room: world.room(key).id, keepers: ids });
}

/** Opens the lines at their months. Holdings that begin with a bag are given back, to wait for a meeting. */
export function openLines(world: World): { lines: HeldLine[]; starting: Starting[] } {
	const starting: Starting[] = [];
	const opened = (lines as readonly LinePlan[]).map((plan): HeldLine => {
		const life = fishLife[plan.definition.fishGroup] ?? fishLife.bristlenose;
		if (!life)
			throw new RangeError(`openLines requires a fish group with a life, got ${plan.definition.fishGroup}`);
		const line: HeldLine = { id: world.newId(), plan, life, holdings: [] };
		world.at(world.month(plan.opens) + dayMs, () => openLine(world, line));
		for (const holding of plan.holdings) {
			const made = new Holding(world, line, holding);
			line.holdings.push(made);
			if (holding.start === 'founders')
				world.at(world.month(holding.from) + 1.2 * dayMs, () => found(world, line, made));
			else if (holding.start === 'old list')
				world.at(world.start + 1.1 * dayMs, () => fromList(world, line, made, holding));
			else starting.push({ line, holding: made, plan: holding, isDone: false });
		}
		return line;
	});
	return { lines: opened, starting };
}

function openLine(world: World, line: HeldLine): void {
	const { plan, id } = line;
	const by = world.member(plan.coordinator).id;
	const officer = world.member('maud').id;
	world.fact({ fact: 'role given', by: officer, member: by, role: 'coordinator', of: id });
	world.write(lineOpened, { line: id, definition: plan.definition }, { by });
	const { deputy, rules, standard, retires } = plan;
	const deputyFrom = Math.max(plan.opens, members.find(({ key }) => key === deputy)?.joins ?? 0);
	if (deputy)
		world.at(world.month(deputyFrom) + 20 * dayMs, () =>
			world.fact({ fact: 'role given', by: officer, member: world.member(deputy).id, role: 'deputy', of: id })
		);
	if (rules) world.after(3, () => world.write(lineRulesSet, { line: id, rules }, { by }));
	if (standard) world.after(60, () => world.write(lineStandardSet, { line: id, ...standard }, { by }));
	if (plan.key === 'piedra')
		world.after(400, () => {
			// Species names change; what was received stays as it was.
			const definition = { ...plan.definition, taxonTidy: 'Zoogoneticus cf. purhepechus' };
			world.write(lineDescribed, { line: id, definition }, { by });
		});
	if (plan.key === 'pelly') world.after(2, () => typeLaterList(world, line));
	if (retires)
		world.at(world.month(retires.month), () =>
			world.write(lineStateSaid, { line: id, state: 'retired', reason: retires.reason }, { by })
		);
}

function found(world: World, line: HeldLine, holding: Holding): void {
	const tank = newTank(world, {
		lineId: line.id,
		room: holding.plan.room,
		fish: line.life.founders,
		born: world.time - 200 * dayMs
	});
	const isConservation = line.plan.definition.kind === 'conservation';
	const origin = {
		from: 'founders' as const,
		source: line.plan.definition.source,
		related: isConservation ? ('unrelated' as const) : ('not known' as const)
	};
	startGroup(world, tank, { name: 'Founders', origin, stage: 'adult' }, { by: holding.keeper() });
	holding.begin(tank);
}

/** A row of the club's old list, typed on the first evening; the room says weeks later that it is so. */
function fromList(world: World, line: HeldLine, holding: Holding, plan: HoldingPlan): void {
	const { males, females } = line.life.founders;
	const fish = { males: 0, females: 0, unsexed: males + females };
	const tank = newTank(world, { lineId: line.id, room: plan.room, fish, born: world.time - 300 * dayMs });
	const row = `${line.plan.definition.name} / ${world.room(plan.room).name} / ${fish.unsexed}`;
	const how = { by: world.member('tobin').id, happened: aboutMonth(world.time - 7 * monthMs) };
	startGroup(
		world,
		tank,
		{ name: '', origin: { from: 'list', row }, stage: null, certainty: 'old list' },
		how
	);
	tank.fish = { males, females, unsexed: 0 };
	tank.isSexed = true;
	holding.begin(tank);
}

function typeLaterList(world: World, line: HeldLine): void {
	const by = world.member('tobin').id;
	for (const [room, unsexed, row] of laterList) {
		const tank = newTank(world, { lineId: line.id, room, fish: { males: 0, females: 0, unsexed } });
		const words = {
			name: '',
			origin: { from: 'list' as const, row },
			stage: null,
			certainty: 'old list' as const
		};
		startGroup(world, tank, words, { by, happened: aboutMonth(world.time - 14 * monthMs) });
	}
	world.tieTogether(laterList.length);
}

/** "Still have them?": asked in rounds; most answer within two weeks, some by phone, some not at all. */
export function askAround(world: World, lines: readonly HeldLine[]): void {
	for (let at = world.start + 80 * dayMs; at < world.now; at += censusDays * dayMs)
		world.at(at, () => {
			for (const holding of lines.flatMap((line) => line.holdings))
				if (world.dice.chance(0.7)) world.after(world.dice.whole(1, 15), () => checkIn(world, holding));
		});
}

export function checkIn(world: World, holding: Holding): void {
	const { breeders, line, roomId } = holding;
	if (!holding.isHeard || !breeders || breeders.isOver || total(breeders) === 0) return;
	const breeding = holding.young.some((tank) => !tank.isOver)
		? ('yes' as const)
		: world.dice.chance(0.5)
			? ('no' as const)
			: ('unknown' as const);
	const note = world.dice.chance(0.1) ? 'Doing well.' : '';
	const keeper = holding.keeper();
	const coordinator = world.member(line.plan.coordinator).id;
	const how =
		coordinator !== keeper && world.dice.chance(0.15) ? { by: coordinator, toldBy: keeper } : { by: keeper };
	world.write(roomCheckedIn, { room: roomId, line: line.id, has: 'yes', breeding, note }, how);
}

/** Somebody looks after the bags at shows and at the next meeting; the right ends three days later. */
export function nameRunners(world: World, meetings: readonly Meeting[]): void {
	meetings.forEach((meeting, i) => {
		if (i % 13 !== 8 && i % 13 !== 2 && i !== meetings.length - 1) return;
		const role = {
			by: world.member('tobin').id,
			member: world.member('ines').id,
			role: 'runner' as const,
			of: meeting.id
		};
		world.at(meeting.at - 14 * dayMs, () => {
			world.fact({ fact: 'role given', ...role });
			world.at(meeting.at + 3 * dayMs, () => world.fact({ fact: 'role ended', ...role }));
		});
	});
}
