import type { EntryId } from '#records/entry.ts';
import { statusAtStart, type SyncStatus } from '#sync/syncStatus.ts';
import type { ClubClient } from '#workers/clubClient.ts';
import type { Sharing } from './sharingWords.ts';

/** How far things have got, followed for the screens. */
export class ClubStatus {
	/** Bag numbers that this device may still give out; null = not known. Set by whoever keeps the blocks. */
	bagNumbers = $state<number | null>(null);
	#now = $state.raw<SyncStatus>(statusAtStart);
	readonly #unshared = $derived(Object.fromEntries(this.#now.unshared.map((note) => [note.id, note.state])));

	/** Starts following; the returned function stops it. */
	follow(client: ClubClient): () => void {
		return client.watchStatus((status) => (this.#now = status));
	}

	get now(): SyncStatus {
		return this.#now;
	}

	/** For SharingMark; changes by itself when the club answers. */
	sharingOf(id: EntryId): Sharing {
		const state = this.#unshared[id];
		if (state === undefined) return 'shared';
		return state === 'refused' ? 'needs-you' : 'device';
	}
}
