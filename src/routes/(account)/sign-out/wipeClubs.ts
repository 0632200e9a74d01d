/** Removes what this browser keeps of a member's clubs. */
import { open } from '#workers/clubClient.ts';

export interface SeatHere {
	readonly club: string;
	readonly member: string;
	readonly device: string;
}

/**
 * Asks every club first, so that nothing is deleted in one while another holds something unshared.
 * @returns how many entries are not shared yet; 0 = all is gone
 * @throws when something could not be deleted
 */
export async function wipeClubs(seats: readonly SeatHere[], { evenUnshared = false } = {}): Promise<number> {
	const clients = seats.map(({ club, member, device }) =>
		open({ club, member, device, serverUrl: location.origin })
	);
	await Promise.all(clients.map(({ opened }) => opened));
	const unshared = clients.reduce((sum, { status }) => sum + status.unshared.length, 0);
	if (unshared > 0 && !evenUnshared) {
		await Promise.all(clients.map((client) => client.close()));
		return unshared;
	}
	let left = 0;
	for (const client of clients) {
		const result = await client.wipe({ evenUnshared });
		if (result.gone) continue;
		if (result.unshared === 0 || evenUnshared)
			throw new Error(`data of club ${client.place.club} is still there`);
		// Written in another tab a moment ago.
		left += result.unshared;
		await client.close();
	}
	if (left === 0) navigator.serviceWorker?.controller?.postMessage({ type: 'forget' });
	return left;
}
