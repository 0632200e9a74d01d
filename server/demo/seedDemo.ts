/**
 * The demonstration's people: a club with three accounts that can sign in, and their rooms. What they wrote in three
 * years is buildDemoClub's.
 */
import { insertAccount } from '../auth/accounts.ts';
import { hashPassword } from '../auth/passwords.ts';
import { joinClub, openClub } from '../club/members.ts';
import { giveRole } from '../club/roles.ts';
import { openRoom } from '../club/rooms.ts';
import type { App } from '../http/app.ts';

export interface DemoAccount {
	readonly name: string;
	readonly part: string;
	readonly signInName: string;
	readonly password: string;
}

export const demoClub = {
	id: 'tern-bay',
	name: 'Tern Bay Fish Club',
	timeZone: 'Europe/London',
	region: 'North coast'
} as const;

/** The line that Maren coordinates: told of by the demo's entries under this id. */
export const demoLine = 'line-speckled-bristlenose';

export const demoAccounts: readonly (DemoAccount & { readonly member: string; readonly room: string })[] = [
	{
		...{
			name: 'Maren',
			part: 'officer, coordinates a line',
			signInName: 'maren',
			password: 'slow grey heron'
		},
		...{ member: 'member-maren', room: 'Harbour room' }
	},
	{
		...{ name: 'Tobias', part: 'keeper', signInName: 'tobias', password: 'warm moss lantern' },
		...{ member: 'member-tobias', room: 'Mill room' }
	},
	{
		...{ name: 'Old Ines', part: 'keeper', signInName: 'ines', password: 'quiet copper kettle' },
		...{ member: 'member-ines', room: 'Garden shed' }
	}
];

/**
 * Fills an empty server with the demonstration's club, accounts and rooms.
 * @param at when it all began, ms since 1970
 */
export async function seedDemo({ db, record }: App, at: number): Promise<readonly DemoAccount[]> {
	const hashes = await Promise.all(demoAccounts.map(({ password }) => hashPassword(password)));
	await db.transaction().execute(async (transaction) => {
		const asked = { by: null, at };
		const club = await openClub(transaction, record, demoClub, asked);
		for (const [i, { name, signInName, member, room }] of demoAccounts.entries()) {
			const account = await insertAccount(transaction, { signInName, passwordHash: hashes[i]! }, at);
			await joinClub(transaction, record, club, { id: member, account, name }, asked);
			const words = { name: room, region: demoClub.region, house: '' };
			await openRoom(
				transaction,
				record,
				club,
				{ ...words, id: member.replace('member', 'room'), keepers: [member] },
				asked
			);
		}
		const officer = demoAccounts[0]!.member;
		await giveRole(transaction, record, club, { member: officer, role: 'officer', of: null }, asked);
		await giveRole(transaction, record, club, { member: officer, role: 'coordinator', of: demoLine }, asked);
	});
	await record.flush(demoClub.id);
	return demoAccounts;
}
