/** What officers change, each as one transaction with the club's entries about it, then handed on to the ledger. */
import type { MemberId, ThingId } from '#records/entry.ts';
import { AppError } from '../appError.ts';
import type { Invitations, MadeLink } from '../auth/invitations.ts';
import type { Sessions } from '../auth/session.ts';
import type { ClubRecord } from './clubRecord.ts';
import type { Asked } from './asked.ts';
import { leaveClub, memberOf, renameMember } from './members.ts';
import { endRole, giveRole, type RoleOf } from './roles.ts';
import {
	changeKeepers,
	describeRoom,
	openRoom,
	shareEpoch,
	type KeeperChange,
	type RoomWords
} from './rooms.ts';
import type { Db, Tx } from './tables.ts';

/** `by` is a member's id; who may ask is checked by the caller (officers; a member for the own name). */
export interface ClubOffice {
	rename(club: string, member: MemberId, name: string, by: MemberId): Promise<void>;
	leave(club: string, member: MemberId, by: MemberId): Promise<void>;
	giveRole(club: string, role: RoleOf, by: MemberId): Promise<void>;
	endRole(club: string, role: RoleOf, by: MemberId): Promise<void>;
	openRoom(
		club: string,
		room: RoomWords & { readonly keepers: readonly MemberId[] },
		by: MemberId
	): Promise<ThingId>;
	describeRoom(club: string, room: ThingId, words: RoomWords, by: MemberId): Promise<void>;
	changeKeepers(club: string, room: ThingId, change: KeeperChange, by: MemberId): Promise<void>;
	shareEpoch(club: string, room: ThingId, epoch: string, by: MemberId): Promise<void>;
	/** An invitation, optionally to a name, a shared room, with a guardian's contact for a minor. */
	invite(club: string, to: InvitationTo, by: MemberId): Promise<MadeLink>;
	/** A new way in for a member who lost the password; earlier unused ones stop working. */
	signInLink(club: string, member: MemberId, by: MemberId): Promise<MadeLink>;
}

export interface InvitationTo {
	readonly name: string;
	readonly room: ThingId | null;
	readonly guardian: string;
}

interface Parts {
	readonly db: Db;
	readonly record: ClubRecord;
	readonly invitations: Invitations;
	readonly sessions: Sessions;
	readonly now: () => number;
}

export function createClubOffice({ db, record, invitations, sessions, now }: Parts): ClubOffice {
	async function change<Result>(
		club: string,
		by: MemberId,
		work: (transaction: Tx, asked: Asked) => Promise<Result>
	): Promise<Result> {
		const asked = { by, at: now() };
		const result = await db.transaction().execute((transaction) => work(transaction, asked));
		await record.flush(club);
		return result;
	}
	return {
		rename: (club, member, name, by) =>
			change(club, by, (transaction, asked) => renameMember(transaction, record, club, member, name, asked)),
		async leave(club, member, by) {
			const { account } = await memberOf(db, club, member);
			await change(club, by, (transaction, asked) => leaveClub(transaction, record, club, member, asked));
			await invitations.revoke('sign-in', account);
			sessions.tellEnded({ member });
		},
		giveRole: (club, role, by) =>
			change(club, by, (transaction, asked) => giveRole(transaction, record, club, role, asked)),
		async endRole(club, role, by) {
			await change(club, by, (transaction, asked) => endRole(transaction, record, club, role, asked));
			// Sockets ask again what the member may open.
			sessions.tellEnded({ member: role.member });
		},
		openRoom: (club, room, by) =>
			change(club, by, (transaction, asked) => openRoom(transaction, record, club, room, asked)),
		describeRoom: (club, room, words, by) =>
			change(club, by, (transaction, asked) => describeRoom(transaction, record, club, room, words, asked)),
		async changeKeepers(club, room, keepers, by) {
			await change(club, by, (transaction, asked) =>
				changeKeepers(transaction, record, club, room, keepers, asked)
			);
			keepers.remove.forEach((member) => sessions.tellEnded({ member }));
		},
		shareEpoch: (club, room, epoch, by) =>
			change(club, by, (transaction) => shareEpoch(transaction, club, room, epoch, by)),
		async invite(club, { name, room, guardian }, by) {
			if (room) {
				const row = await db.selectFrom('room').select('club').where('id', '=', room).executeTakeFirst();
				if (row?.club !== club) throw new AppError('not-found', room);
			}
			return invitations.make({ purpose: 'invitation', club, name, room, guardian, madeBy: by });
		},
		async signInLink(club, member, by) {
			const { account } = await memberOf(db, club, member);
			await invitations.revoke('sign-in', account);
			return invitations.make({ purpose: 'sign-in', club, account, madeBy: by });
		}
	};
}
