/** The open documents as a tab without the lock has them: from the cache, then from what the leader tells. */
import * as Y from 'yjs';
import type { Audience, EntryId } from '#records/entry.ts';
import type { Manifest } from '#protocol/messages.ts';
import { readDocumentCache } from './documentCache.ts';
import { LedgerDocument, type LedgerAddition } from './ledgerDocument.ts';

export class ReplicaDocuments {
	readonly #storeName: string;
	readonly #added: (audience: Audience, addition: LedgerAddition) => void;
	readonly #documents = new Map<Audience, LedgerDocument>();

	constructor(storeName: string, added: (audience: Audience, addition: LedgerAddition) => void) {
		this.#storeName = storeName;
		this.#added = added;
	}

	async load(manifest: Manifest | undefined): Promise<void> {
		for (const { audience, document } of manifest?.audiences ?? []) {
			const ledger = this.#open(audience as Audience, document);
			await readDocumentCache(`${this.#storeName}:${document}`, ledger.doc);
		}
	}

	apply(audience: Audience, document: string, update: Uint8Array): void {
		Y.applyUpdate(this.#open(audience, document).doc, update, 'leader');
	}

	has(audience: Audience, id: EntryId): boolean {
		return this.#documents.get(audience)?.has(id) ?? false;
	}

	all(): { audience: Audience; ledger: LedgerDocument }[] {
		return [...this.#documents].map(([audience, ledger]) => ({ audience, ledger }));
	}

	close(): void {
		for (const ledger of this.#documents.values()) {
			ledger.onAddition = undefined;
			ledger.doc.destroy();
		}
		this.#documents.clear();
	}

	#open(audience: Audience, document: string): LedgerDocument {
		const open = this.#documents.get(audience);
		if (open?.name === document) return open;
		open?.doc.destroy();
		const ledger = new LedgerDocument(document);
		ledger.onAddition = (addition) => this.#added(audience, addition);
		this.#documents.set(audience, ledger);
		return ledger;
	}
}
