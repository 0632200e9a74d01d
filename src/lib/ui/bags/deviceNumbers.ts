import { askServerForBlocks, DeviceNumbers } from '#handover/deviceNumbers.ts';
import type { ClubClient } from '#workers/clubClient.ts';

/** One store of numbers for each client, however many screens ask for it. */
const stores = new WeakMap<ClubClient, DeviceNumbers>();

/** The bag numbers that this device has been given. */
export function numbersOf(client: ClubClient): DeviceNumbers {
	const known = stores.get(client);
	if (known) return known;
	const made = new DeviceNumbers(
		client.place.club,
		client.place.member,
		askServerForBlocks(client.place.club)
	);
	stores.set(client, made);
	client.watchWiped(() => void made.close());
	return made;
}
