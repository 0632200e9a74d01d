/**
 * Rooms and those who keep them. Every change of keepers begins a new epoch of the room's private document, which
 * those who keep the room then may read; earlier epochs stay with those who kept it at their time.
 */
import { v7 as newId } from 'uuid';
import type { Tx } from './tables.ts';
import type { MemberId, ThingId } from '#records/entry.ts';
import { AppError } from '../appError.ts';
import type { ClubRecord } from './clubRecord.ts';
import type { Asked } from './asked.ts';
import { newToken } from '../auth/token.ts';

/** A room as members see it. `region` is as fine as a place gets; `house` groups rooms that share a heater. */
export interface RoomWords {
	readonly name: string;
	readonly region: string;
	readonly house: string;
}

export interface KeeperChange {
	readonly add: readonly MemberId[];
	readonly remove: readonly MemberId[];
}

/** A fish room joins the club, with one keeper or several. */
export async function openRoom(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	room: RoomWords & { readonly id?: ThingId; readonly keepers: readonly MemberId[] },
	asked: Asked
): Promise<ThingId> {
	const { name, region, house, id = newId() } = room;
	await transaction.insertInto('room').values({ id, club, name, region, house, epoch: '' }).execute();
	const body = { room: id, name, region, house, askedBy: asked.by };
	await record.say(transaction, club, 'club/roomOpened', [id], body, asked.at);
	await changeKeepers(transaction, record, club, id, { add: room.keepers, remove: [] }, asked);
	return id;
}

/** The room's name, region or house is set anew. */
export async function describeRoom(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	room: ThingId,
	words: RoomWords,
	asked: Asked
): Promise<void> {
	await assertRoom(transaction, club, room);
	const { name, region, house } = words;
	await transaction.updateTable('room').set({ name, region, house }).where('id', '=', room).execute();
	const body = { room, name, region, house, askedBy: asked.by };
	await record.say(transaction, club, 'club/roomDescribed', [room], body, asked.at);
}

/** Keepers come and go; one new epoch for the whole change. Nothing happens when nothing changes. */
export async function changeKeepers(
	transaction: Tx,
	record: ClubRecord,
	club: string,
	room: ThingId,
	change: KeeperChange,
	asked: Asked
): Promise<void> {
	await assertRoom(transaction, club, room);
	const rows = await transaction.selectFrom('keeper').select('member').where('room', '=', room).execute();
	const before = new Set(rows.map(({ member }) => member));
	const added = [...new Set(change.add)].filter((member) => !before.has(member));
	const removed = [...new Set(change.remove)].filter((member) => before.has(member));
	if (added.length === 0 && removed.length === 0) return;
	const epoch = newToken().slice(0, 12);
	for (const member of removed) {
		await transaction.deleteFrom('keeper').where('room', '=', room).where('member', '=', member).execute();
		const body = { room, member, epoch, askedBy: asked.by };
		await record.say(transaction, club, 'club/keeperRemoved', [room, member], body, asked.at);
	}
	for (const member of added) {
		await assertMemberHere(transaction, club, member);
		await transaction.insertInto('keeper').values({ room, member, since: asked.at }).execute();
		const body = { room, member, epoch, askedBy: asked.by };
		await record.say(transaction, club, 'club/keeperAdded', [room, member], body, asked.at);
	}
	const keepers = [...before, ...added].filter((member) => !removed.includes(member));
	const readers = keepers.map((member) => ({ room, epoch, member }));
	if (readers.length > 0) await transaction.insertInto('roomReader').values(readers).execute();
	await transaction.updateTable('room').set({ epoch }).where('id', '=', room).execute();
	await record.openEpoch(transaction, club, room, epoch);
}

/**
 * A keeper lets those who keep the room now read an earlier epoch.
 * @throws AppError `not-allowed` when the asker may not read that epoch
 */
export async function shareEpoch(
	transaction: Tx,
	club: string,
	room: ThingId,
	epoch: string,
	by: MemberId
): Promise<void> {
	await assertRoom(transaction, club, room);
	const readers = await transaction
		.selectFrom('roomReader')
		.select('member')
		.where('room', '=', room)
		.where('epoch', '=', epoch)
		.execute();
	if (!readers.some(({ member }) => member === by)) throw new AppError('not-allowed', room);
	const keepers = await transaction.selectFrom('keeper').select('member').where('room', '=', room).execute();
	const rows = keepers.map(({ member }) => ({ room, epoch, member }));
	if (rows.length === 0) return;
	await transaction
		.insertInto('roomReader')
		.values(rows)
		.onConflict((conflict) => conflict.columns(['room', 'epoch', 'member']).doNothing())
		.execute();
}

async function assertRoom(transaction: Tx, club: string, room: ThingId): Promise<void> {
	const row = await transaction
		.selectFrom('room')
		.select('id')
		.where('id', '=', room)
		.where('club', '=', club)
		.executeTakeFirst();
	if (!row) throw new AppError('not-found', room);
}

async function assertMemberHere(transaction: Tx, club: string, member: MemberId): Promise<void> {
	const row = await transaction
		.selectFrom('member')
		.select('id')
		.where('id', '=', member)
		.where('club', '=', club)
		.where('leftAt', 'is', null)
		.executeTakeFirst();
	if (!row) throw new AppError('not-found', member);
}
