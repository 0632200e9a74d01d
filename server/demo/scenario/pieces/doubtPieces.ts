/**
 * Doubt: a suspected mix, a dispute that was decided, two versions of one count, statements of people with no part
 * in a thing (some confirmed, some waiting), a decision that was not its writer's to take, something taken back.
 */
import { groupChanged } from '#records/kinds/groups/changed.ts';
import { groupCounted } from '#records/kinds/groups/counted.ts';
import { groupMixed } from '#records/kinds/groups/mixed.ts';
import { lineRulesSet } from '#records/kinds/lines/rulesSet.ts';
import { roomCheckedIn } from '#records/kinds/rooms/checkedIn.ts';
import { wordConfirmed } from '#records/kinds/words/confirmed.ts';
import { wordDecided } from '#records/kinds/words/decided.ts';
import { wordDisputed } from '#records/kinds/words/disputed.ts';
import { wordWithdrawn } from '#records/kinds/words/withdrawn.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import type { LineKey } from '#server/demo/scenario/linePlans.ts';
import type { MemberKey, RoomKey } from '#server/demo/scenario/names.ts';
import type { Stage } from './stage.ts';
import { dayMs } from '#server/demo/scenario/world.ts';

export function playDoubtPieces(stage: Stage): void {
	const { world } = stage;
	const maud = world.member('maud').id;
	stage.ago(60, () => mixed(stage));
	stage.ago(310, () => twoVersions(stage, true));
	stage.ago(24, () => twoVersions(stage, false));
	stage.ago(280, () => decided(stage));
	stage.ago(90, () => {
		// Bram is deputy of another line: these rules are not his to set.
		const line = stage.holding('verde', 'spring').line;
		const rules = {
			targetRooms: 2,
			confirmedDays: 365,
			ageingDays: 200,
			neverCrossWith: '',
			spareToPublic: true
		};
		world.write(lineRulesSet, { line: line.id, rules }, { by: world.member('bram').id });
	});
	toldByOthers(stage, 420, 'piet', 'honey', 'orchard', 'bram');
	toldByOthers(stage, 260, 'oda', 'tide', 'upper', 'jory');
	toldByOthers(stage, 140, 'wim', 'wattle', 'spring', 'hette');
	toldByOthers(stage, 19, 'wim', 'tide', 'harbour', null);
	stage.ago(21, () => {
		const body = { line: stage.holding('verde', 'barn').line.id, room: world.room('barn').id };
		const words = { has: 'yes' as const, breeding: 'unknown' as const, note: 'He said so at the bus stop.' };
		world.write(roomCheckedIn, { ...body, ...words }, { by: world.member('reed').id });
	});
	stage.ago(155, () => {
		const tank = stage.tank('wattle', 'brook');
		const by = world.member('sanna').id;
		const body = {
			group: tank.id,
			room: world.room('brook').id,
			fish: { ...noFish, females: 1 },
			why: 'lost' as const,
			cause: ''
		};
		const entry = world.write(groupChanged, body, { by });
		world.after(2, () => {
			world.write(
				wordWithdrawn,
				{ reason: 'She was behind the filter all along.' },
				{ by, corrects: [entry] }
			);
		});
	});
	// An officer's own tap, long after: said by phone, believed, written down.
	stage.ago(200, () => {
		const holding = stage.holding('nsombe', 'upper');
		const body = {
			room: holding.roomId,
			line: holding.line.id,
			has: 'yes' as const,
			breeding: 'yes' as const,
			note: ''
		};
		world.write(roomCheckedIn, body, { by: maud, toldBy: holding.keeper() });
	});
}

/** Something got mixed: nobody is blamed. */
function mixed(stage: Stage): void {
	const { world } = stage;
	const tank = stage.tank('verde', 'mill');
	const body = {
		...{ group: tank.id, room: world.room('mill').id, line: tank.lineId, sort: 'jumped' as const },
		what: 'One fish too many in the tank since the lid was off. It looks like the others.'
	};
	world.write(groupMixed, body, { by: world.member('piet').id });
}

/** Both keepers of one room put the same count right, and neither had seen the other's. */
function twoVersions(stage: Stage, isSettled: boolean): void {
	const { world } = stage;
	const tank = stage.tank('honey', 'mill');
	const [ines, piet] = [world.member('ines').id, world.member('piet').id];
	const sort = tank.isSexed ? 'females' : 'unsexed';
	const body = (more: number) => ({
		...{ group: tank.id, room: world.room('mill').id, certainty: 'counted' as const },
		fish: addFish(tank.fish, { ...noFish, [sort]: more })
	});
	const first = world.write(groupCounted, body(4), { by: ines, offlineHours: 0 });
	const happened = world.moment();
	const fixed = { happened, offlineHours: 30 };
	const [right, wrong] = [body(0), body(2)];
	world.at(world.time + dayMs, () => {
		const a = world.write(groupCounted, wrong, { ...fixed, by: ines, corrects: [first] });
		const b = world.write(groupCounted, right, { ...fixed, by: piet, corrects: [first] });
		if (isSettled)
			world.after(4, () => world.write(groupCounted, right, { by: ines, happened, corrects: [first, a, b] }));
	});
}

/** A loss was doubted; the coordinator heard both and decided. */
function decided(stage: Stage): void {
	const { world } = stage;
	const holding = stage.holding('verde', 'lower');
	const tank = stage.tank('verde', 'lower');
	const body = {
		group: tank.id,
		room: holding.roomId,
		fish: { ...tank.fish },
		certainty: 'counted' as const
	};
	const entry = world.write(groupCounted, body, { by: holding.keeper() });
	world.after(3, () => {
		const reason = 'I was there on Sunday and saw fewer.';
		const dispute = world.write(wordDisputed, { entry, reason }, { by: world.member('jory').id });
		world.after(6, () => {
			const decision = {
				dispute,
				of: entry,
				stands: true,
				reason: 'Counted again by both: the number is right.'
			};
			world.write(wordDecided, decision, { by: world.member('hette').id });
		});
	});
}

/** Somebody counts in a room that is not theirs; it waits for one tap of the keeper. */
function toldByOthers(
	stage: Stage,
	daysAgo: number,
	who: MemberKey,
	line: LineKey,
	room: RoomKey,
	confirms: MemberKey | null
): void {
	const { world } = stage;
	stage.ago(daysAgo, () => {
		const tank = stage.tank(line, room);
		const body = {
			group: tank.id,
			room: world.room(room).id,
			fish: { ...tank.fish },
			certainty: 'counted' as const
		};
		const entry = world.write(groupCounted, body, { by: world.member(who).id });
		if (confirms)
			world.after(2, () => world.write(wordConfirmed, { entry }, { by: world.member(confirms).id }));
	});
}
