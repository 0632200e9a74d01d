/**
 * Contact details: never in a document, shown online only, and only to the other side of an agreed exchange.
 */
import type { MemberId, ThingId } from '#records/entry.ts';
import type { ExchangeStage } from '#records/state.ts';
import type { Db } from './tables.ts';

/** What the rule looks at: taken from the club state. */
export interface ExchangeSides {
	readonly stage: ExchangeStage;
	/** Keepers now of the rooms that give, and of the room that receives. */
	readonly givers: readonly MemberId[];
	readonly receivers: readonly MemberId[];
}

/** Both said yes, and there is still something to arrange. */
const agreedStages: readonly ExchangeStage[] = ['agreed', 'bagged', 'handed over', 'arrived'];

/** Members whose contact details the asker may see: the other side's, from agreed until settled. */
export function contactsOpenTo(asker: MemberId, exchange: ExchangeSides): MemberId[] {
	if (!agreedStages.includes(exchange.stage)) return [];
	const { givers, receivers } = exchange;
	const others = new Set<MemberId>();
	if (givers.includes(asker)) receivers.forEach((member) => others.add(member));
	if (receivers.includes(asker)) givers.forEach((member) => others.add(member));
	others.delete(asker);
	return [...others];
}

export interface Contact {
	readonly member: MemberId;
	readonly name: string;
	/** '' = not given. For a minor the guardian's words stand instead of the member's own. */
	readonly email: string;
	readonly phone: string;
	readonly street: string;
	readonly guardian: string;
}

export async function contactsOf(db: Db, club: string, members: readonly MemberId[]): Promise<Contact[]> {
	if (members.length === 0) return [];
	const rows = await db
		.selectFrom('member')
		.innerJoin('account', 'account.id', 'member.account')
		.select(['member.id as member', 'member.name', 'email', 'phone', 'street', 'guardian'])
		.where('member.club', '=', club)
		.where('member.leftAt', 'is', null)
		.where('member.id', 'in', [...members])
		.execute();
	return rows.map((row) => (row.guardian === '' ? row : { ...row, email: '', phone: '', street: '' }));
}

/** The keepers now of some rooms. */
export async function keepersOf(db: Db, club: string, rooms: readonly ThingId[]): Promise<MemberId[]> {
	if (rooms.length === 0) return [];
	const rows = await db
		.selectFrom('keeper')
		.innerJoin('room', 'room.id', 'keeper.room')
		.select('keeper.member')
		.distinct()
		.where('room.club', '=', club)
		.where('room.id', 'in', [...rooms])
		.execute();
	return rows.map(({ member }) => member);
}
