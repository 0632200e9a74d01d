import type { ClubClient } from '#workers/clubClient.ts';
import { dayWritten } from '#ui/shared/dateWritten.ts';
import { saveFile } from '#ui/shared/saveFile.ts';

/** Saves what is not shared of one club to a file. What is on this device stays there. @returns the file's name */
export async function saveUnshared(client: Pick<ClubClient, 'exportUnshared' | 'place'>): Promise<string> {
	const content = await client.exportUnshared();
	const { club } = client.place;
	const name = `kithline-not-shared-${club.replace(/[^a-z0-9-]+/gi, '-').slice(0, 40)}-${dayWritten(new Date())}.json`;
	saveFile(name, content);
	return name;
}
