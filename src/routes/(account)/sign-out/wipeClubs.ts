/** Removes what this browser keeps of a member's clubs. */
import { saveUnshared } from '#ui/unshared/saveUnshared.ts';
import { open, type ClubClient } from '#workers/clubClient.ts';

export interface SeatHere {
	readonly club: string;
	readonly clubName: string;
	readonly member: string;
	readonly device: string;
}

/** What keeps a club from being removed. */
export interface UnsharedHere {
	readonly seat: SeatHere;
	/** Entries that the club does not have: the member's own, and others' that it has lost. */
	readonly count: number;
}

/**
 * Asks every club first, so that nothing is deleted in one while another holds something unshared.
 * @returns the clubs with something not shared yet; none = all is gone
 * @throws when something could not be deleted
 */
export async function wipeClubs(
	seats: readonly SeatHere[],
	{ evenUnshared = false } = {}
): Promise<UnsharedHere[]> {
	const here = seats.map((seat) => ({ seat, client: openSeat(seat) }));
	await Promise.all(here.map(({ client }) => client.opened));
	const unshared = here
		.map(({ seat, client }) => ({ seat, count: client.status.unshared.length + client.status.aside }))
		.filter(({ count }) => count > 0);
	if (unshared.length > 0 && !evenUnshared) {
		await Promise.all(here.map(({ client }) => client.close()));
		return unshared;
	}
	const left: UnsharedHere[] = [];
	for (const { seat, client } of here) {
		const result = await client.wipe({ evenUnshared });
		if (result.gone) continue;
		if (result.unshared === 0 || evenUnshared) throw new Error(`data of club ${seat.club} is still there`);
		// Written in another tab a moment ago.
		left.push({ seat, count: result.unshared });
		await client.close();
	}
	if (left.length === 0) navigator.serviceWorker?.controller?.postMessage({ type: 'forget' });
	return left;
}

/** Saves what one club does not have yet to a file. @returns the file's name */
export async function saveSeat(seat: SeatHere): Promise<string> {
	const client = openSeat(seat);
	try {
		await client.opened;
		return await saveUnshared(client);
	} finally {
		await client.close();
	}
}

function openSeat({ club, member, device }: SeatHere): ClubClient {
	return open({ club, member, device, serverUrl: location.origin });
}
