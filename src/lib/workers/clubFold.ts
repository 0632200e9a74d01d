/**
 * The fold of the club's ledger inside the worker, saved so that opening is the saved state and what came after. Saved
 * is only what the club has: an entry that is still only on this device may yet be taken back.
 */
import type { Audience, Entry, EntryId } from '#records/entry.ts';
import { Fold, foldVersion, type FoldInput, type SavedFold } from '#records/fold.ts';
import type { DeviceLedger } from '#sync/deviceLedger.ts';
import type { LedgerAddition } from '#sync/ledgerDocument.ts';

/** Entries folded in one go; between them the worker hears calls. */
const chunk = 4_000;
/** So few new entries are folded again faster than a large state is saved. */
const worthSaving = 500;

interface SavedState {
	readonly foldVersion: number;
	readonly edition: string;
	readonly digests: readonly string[];
	readonly size: number;
	readonly fold: SavedFold;
}

export class ClubFold {
	fold = new Fold();
	readonly privateEntries = new Map<Audience, Map<EntryId, Entry>>();
	/** Volumes that are in the fold. */
	#digests = new Set<string>();
	#edition = '';
	#savedSize = 0;

	/** Reads everything that the device has. Starts over if called again. */
	async load(ledger: DeviceLedger): Promise<void> {
		const manifest = await ledger.manifest();
		const edition = manifest?.edition ?? '';
		const club = manifest?.audiences.find((one) => one.audience === 'club');
		const present = new Set(club?.volumes.map((one) => one.digest));
		const saved = await ledger.store.meta<SavedState>('savedFold');
		const usable =
			saved?.foldVersion === foldVersion &&
			saved.edition === edition &&
			saved.digests.every((digest) => present.has(digest));
		const restored = usable ? Fold.restore(saved.fold) : null;
		this.fold = restored ?? new Fold();
		this.#edition = edition;
		this.#digests = new Set(restored ? saved?.digests : []);
		this.#savedSize = restored ? restored.size : 0;
		this.privateEntries.clear();
		for await (const { audience, digest, items, stamps } of ledger.volumes(this.#digests)) {
			await this.#addInChunks(audience, { items, stamps });
			if (audience === 'club') this.#digests.add(digest);
		}
		const unshared = await ledger.unshared();
		const only = new Set(unshared.map(({ item }) => item.entry?.id));
		for (const { audience, addition } of ledger.documents()) {
			const items = addition.items.filter(({ entry }) => !only.has(entry?.id));
			await this.#addInChunks(audience, { items, stamps: addition.stamps });
		}
		ledger.ids.see(this.fold.highestTime);
		// The state is taken at once, while it holds nothing unshared; the disk may take its time.
		void this.#save(ledger).catch((error: unknown) => console.error('saving the club state', error));
		for (const { audience, item } of unshared) this.add(audience, { items: [item], stamps: [] });
	}

	add(audience: Audience, { items, stamps }: LedgerAddition): void {
		if (audience === 'club') this.fold.add(foldInputs({ items, stamps }));
		else {
			const entries = this.privateEntries.get(audience) ?? new Map<EntryId, Entry>();
			this.privateEntries.set(audience, entries);
			for (const { entry } of items) if (entry) entries.set(entry.id, entry);
		}
	}

	remove(ids: readonly EntryId[]): void {
		for (const id of ids) {
			this.fold.remove(id);
			for (const entries of this.privateEntries.values()) entries.delete(id);
		}
	}

	/** After a quiet while with nothing unshared. */
	async saveIfWorth(ledger: DeviceLedger): Promise<void> {
		if ((await ledger.unshared()).length === 0 && ledger.status.unshared.length === 0)
			await this.#save(ledger);
	}

	async #save(ledger: DeviceLedger): Promise<void> {
		if (this.fold.size - this.#savedSize < worthSaving) return;
		const saved: SavedState = {
			foldVersion,
			edition: this.#edition,
			digests: [...this.#digests],
			size: this.fold.size,
			fold: this.fold.save()
		};
		this.#savedSize = saved.size;
		await ledger.store.setMeta('savedFold', saved);
	}

	async #addInChunks(audience: Audience, { items, stamps }: LedgerAddition): Promise<void> {
		for (let start = 0; start === 0 || start < items.length; start += chunk) {
			// Stamps first: with them each entry takes its final rank at once.
			this.add(audience, { items: items.slice(start, start + chunk), stamps: start === 0 ? stamps : [] });
			await new Promise((resolve) => setTimeout(resolve));
		}
	}
}

function foldInputs({ items, stamps }: LedgerAddition): FoldInput[] {
	return [
		...stamps.map((stamp) => ({ stamp })),
		...items.map(({ text, entry }) => (entry ? { entry } : { text }))
	];
}
