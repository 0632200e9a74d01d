/** Rooms: a closed tank, quarantine made longer, spare fish, wants, private words, officers' words, a holiday. */
import { clubDistanceSaid } from '#records/kinds/club/distanceSaid.ts';
import { groupClosed } from '#records/kinds/groups/closed.ts';
import { groupQuarantineSet } from '#records/kinds/groups/quarantineSet.ts';
import { groupReopened } from '#records/kinds/groups/reopened.ts';
import { groupSpareOffered } from '#records/kinds/groups/spareOffered.ts';
import { lineWantEnded } from '#records/kinds/lines/wantEnded.ts';
import { lineWanted } from '#records/kinds/lines/wanted.ts';
import { privateWords } from '#records/kinds/rooms/privateWords.ts';
import { roomClosed } from '#records/kinds/rooms/closed.ts';
import { roomReopened } from '#records/kinds/rooms/reopened.ts';
import { roomTanksFree } from '#records/kinds/rooms/tanksFree.ts';
import { officersWords } from '#records/kinds/words/officersWords.ts';
import { noFish } from '#records/fishCount.ts';
import { arrive, bagUp } from '#server/demo/scenario/fish/bag.ts';
import { fishToGive } from '#server/demo/scenario/exchange.ts';
import type { LineKey } from '#server/demo/scenario/linePlans.ts';
import { officerNotes, roomWords, type RoomKey } from '#server/demo/scenario/names.ts';
import type { Stage } from './stage.ts';
import { take, tellLoss, total, type Tank } from '#server/demo/scenario/fish/tank.ts';
import { dayMs, dayOf } from '#server/demo/scenario/world.ts';

export function playRoomPieces(stage: Stage): void {
	const { world } = stage;
	stage.ago(400, () => closeFor(stage, 'wattle', 'brook', 30, 'Clamped fins. Waiting for the vet.'));
	stage.ago(20, () =>
		closeFor(stage, 'honey', 'orchard', null, 'White spots on two. Nothing in or out until they are clear.')
	);
	stage.ago(8, () =>
		closeFor(stage, 'mbwela', 'brook', null, 'Two lie on the ground. Nothing in or out until I know why.')
	);
	stage.ago(500, () => {
		const room = world.room('peat').id;
		const by = world.member('fenn').id;
		world.write(roomClosed, { room, reason: 'Gill trouble somewhere. I do not know which tank.' }, { by });
		world.after(24, () => world.write(roomReopened, { room }, { by }));
	});
	stage.ago(15, () => quarantine(stage));
	for (const days of [640, 520, 390, 270, 170]) stage.ago(days, () => spare(stage, 25, true));
	for (const days of [9, 6, 4]) stage.ago(days, () => spare(stage, 18, false));
	want(stage, 860, 'honey', 'mill', 60);
	want(stage, 330, 'copper', 'upper', 90);
	want(stage, 100, 'piedra', 'peat', null);
	want(stage, 55, 'wattle', 'lower', null);
	want(stage, 30, 'copper', 'nook', null);
	want(stage, 14, 'tide', 'brook', null);
	// Females that go on dropping young long after the last male.
	stage.ago(215, () => malesGone(stage, 'attic'));
	stage.ago(95, () => malesGone(stage, 'harbour'));
	// Eggs laid in the last months rest in peat for some time yet.
	for (const days of [70, 40])
		stage.ago(days, () => {
			const killies = stage.lines.find(({ plan }) => plan.key === 'mbwela')?.holdings ?? [];
			killies.find(({ breeders }) => breeders && !breeders.isOver && breeders.fish.females > 0)?.spawnNow();
		});
	(
		[
			[700, 'mill'],
			[480, 'orchard'],
			[300, 'harbour'],
			[120, 'mill'],
			[40, 'peat'],
			[18, 'orchard'],
			[7, 'mill']
		] as const
	).forEach(([days, room], i) =>
		stage.ago(days, () => say(stage, room, roomWords[i % roomWords.length] ?? ''))
	);
	// The night before a plan: who has room for newcomers, and where a trip is long.
	world.at(world.daysAgo(0.2), () => {
		const by = world.member('maud').id;
		for (const [days, room, tanks] of [
			[120, 'peat', 4],
			[52, 'attic', 3],
			[6, 'mill', 2],
			[3, 'brook', 0]
		] as const) {
			const toldBy = world.keepers(room)[0];
			const how = { happened: dayOf(world.daysAgo(days)), ...(toldBy && { toldBy }) };
			world.write(roomTanksFree, { room: world.room(room).id, line: null, tanks }, { by, ...how });
		}
		for (const one of ['Ostrel Coast', 'Quillmarsh'])
			world.write(clubDistanceSaid, { club: world.clubId, one, other: 'North Pellow', far: true }, { by });
	});
	officerNotes.forEach((note, i) =>
		stage.ago([210, 600, 330, 45][i] ?? 30, () => {
			const members = note.members.map((key) => world.member(key).id);
			const body = { sort: note.sort, members, text: note.text };
			world.write(officersWords, body, {
				by: world.member(i % 2 ? 'tobin' : 'maud').id,
				audience: 'officers'
			});
		})
	);
}

function closeFor(stage: Stage, line: LineKey, room: RoomKey, days: number | null, reason: string): void {
	const { world } = stage;
	const tank = stage.holding(line, room).breeders ?? stage.tank(line, room);
	const body = { group: tank.id, room: world.room(room).id };
	const by = world.keeper(room);
	tank.shutUntil = days === null ? Infinity : world.time + (days + 1) * dayMs;
	world.write(groupClosed, { ...body, reason }, { by });
	if (days !== null) world.after(days, () => world.write(groupReopened, body, { by }));
}

/** A bag outside any meeting; one fish is lost on the way and another a week later, so it stays apart for longer. */
function quarantine(stage: Stage): void {
	const { world } = stage;
	const { line, gift, to } = stage.move();
	const bag = bagUp(world, {
		...{ line, gift, to, meeting: null, exchange: null },
		fish: fishToGive(world, gift)
	});
	world.at(world.time + 7_200_000, () => {
		const arrived = arrive(world, bag, 1);
		if (!arrived) return;
		const { tank } = arrived;
		tank.shutUntil = world.now + 30 * dayMs;
		world.after(7, () => {
			if (total(tank) > 1) tellLoss(world, tank, take(tank.fish, 1, world), 'died', 'thin');
			const body = {
				group: tank.id,
				room: to.roomId,
				until: dayOf(world.now + 24 * dayMs),
				reason: 'Another one died. Longer, to be sure.'
			};
			world.write(groupQuarantineSet, body, { by: to.keeper() });
		});
	});
}

function spare(stage: Stage, days: number, isOver: boolean): void {
	const { world } = stage;
	const { gift } = stage.move();
	const { tank, holding } = gift;
	const room = holding.roomId;
	const body = { group: tank.id, room, until: dayOf(world.time + days * dayMs) };
	const by = holding.keeper();
	const fish = take(tank.fish, Math.min(12, Math.floor(total(tank) / 2)), world);
	world.write(groupSpareOffered, { ...body, fish, note: 'Bring a bag.' }, { by });
	if (isOver)
		world.after(days, () =>
			world.write(groupSpareOffered, { ...body, fish: noFish, until: '', note: '' }, { by })
		);
	else keepFor(tank, world.now + 30 * dayMs);
}

function keepFor(tank: Tank, until: number): void {
	tank.shutUntil = Math.max(tank.shutUntil, until);
}

function want(stage: Stage, daysAgo: number, key: LineKey, room: RoomKey, forDays: number | null): void {
	const { world } = stage;
	stage.ago(daysAgo, () => {
		const line = stage.lines.find(({ plan }) => plan.key === key)?.id ?? '';
		const body = { line, room: world.room(room).id };
		const by = world.keeper(room);
		world.write(lineWanted, { ...body, note: 'A tank is ready.' }, { by });
		if (forDays !== null) world.after(forDays, () => world.write(lineWantEnded, body, { by }));
	});
}

function malesGone(stage: Stage, room: RoomKey): void {
	const { world } = stage;
	const holding = stage.holding('tide', room);
	const tank = holding.breeders;
	if (!tank || tank.isOver) return;
	tellLoss(world, tank, { ...noFish, males: tank.fish.males }, 'died', 'old age');
	for (const days of [32, 61]) world.after(days, () => holding.breeders === tank && holding.spawnNow());
}

function say(stage: Stage, room: RoomKey, text: string): void {
	const { world } = stage;
	const id = world.room(room).id;
	world.write(
		privateWords,
		{ room: id, text, explains: null, group: null },
		{ by: world.keeper(room), audience: `room:${id}` }
	);
}
