import type { EntryId } from '#records/entry.ts';
import { statusAtStart, type SyncStatus } from '#sync/syncStatus.ts';
import type { ClubClient } from '#workers/clubClient.ts';
import type { Sharing } from './sharingWords.ts';

/** How far things have got, followed for the screens. */
export class ClubStatus {
	/** Bag numbers that this device may still give out; null = not known. Set by whoever keeps the blocks. */
	bagNumbers = $state<number | null>(null);
	/** Decisions shared since the app was opened that were another's to take: the writer should hear of it. */
	needsYou = $state(0);
	#now = $state.raw<SyncStatus>(statusAtStart);
	readonly #unshared = $derived(Object.fromEntries(this.#now.unshared.map((note) => [note.id, note.state])));

	/** Starts following; the returned function stops it. */
	follow(client: ClubClient): () => void {
		const shared = new Set<EntryId>();
		let stopAsking = () => {};
		const stop = client.watchStatus((status) => {
			const left = new Set(status.unshared.map(({ id }) => id));
			const gone = this.#now.unshared.filter(({ id }) => !left.has(id));
			this.#now = status;
			if (gone.length === 0) return;
			for (const { id } of gone) shared.add(id);
			stopAsking();
			stopAsking = client.subscribe(
				'notAllowed',
				{ ids: [...shared] },
				(ids) => (this.needsYou = ids.length)
			);
		});
		return () => {
			stop();
			stopAsking();
		};
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
