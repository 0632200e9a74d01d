/** An officer's device brings back what the club has lost: others' entries, ids and texts unchanged. */
import type { Audience, EntryId } from '#records/entry.ts';
import type { CandidateRecord } from './deviceDatabase.ts';
import { DeviceError } from './problems.ts';
import { readEntry } from './readEntry.ts';

/** Texts in one request; the server takes 500. A writing is not split, so this leaves room for one more. */
const textsInOneRequest = 400;

type Brought = { readonly id: string; readonly n: number } | { readonly id: string; readonly reason: string };

/** @returns ids that the club has now. @throws DeviceError `not-officer`, `no-signal` */
export async function bringAside(
	serverUrl: string,
	club: string,
	records: readonly CandidateRecord[]
): Promise<EntryId[]> {
	const there: EntryId[] = [];
	for (const [audience, texts] of requests(records)) {
		const answer = await fetch(`${serverUrl}/api/clubs/${encodeURIComponent(club)}/bring`, {
			method: 'POST',
			credentials: 'include',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify({ audience, texts })
		}).catch((error: unknown) => {
			throw new DeviceError('no-signal', error);
		});
		if (answer.status === 401 || answer.status === 403) throw new DeviceError('not-officer');
		if (!answer.ok) throw new DeviceError('no-signal', answer.status);
		const { brought } = (await answer.json()) as { brought: readonly Brought[] };
		for (const one of brought) if ('n' in one) there.push(one.id);
	}
	return there;
}

/** Entries of one writing travel together: the server takes all of it or nothing. */
function requests(records: readonly CandidateRecord[]): [Audience, string[]][] {
	const made: [Audience, string[]][] = [];
	const groups = Map.groupBy(
		records,
		({ id, text, audience }) => `${audience} ${readEntry(text)?.together?.[0] ?? id}`
	);
	for (const group of groups.values()) {
		const { audience } = group[0]!;
		const last = made.findLast(([to, texts]) => to === audience && texts.length < textsInOneRequest);
		const texts = group.map((record) => record.text);
		if (last) last[1].push(...texts);
		else made.push([audience, texts]);
	}
	return made;
}
