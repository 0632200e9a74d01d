import type { Audience, Draft, Entry, EntryId } from '#records/entry.ts';
import type { ClubClient } from '#workers/clubClient.ts';

const notUndone = {
	'already-sending': 'It is on its way to the club already. Correct it in its history instead.',
	'not-here': 'It is shared already. Correct it in its history instead.'
} as const;

/** What the recorder needs of the club's client. */
export type Writes = Pick<ClubClient, 'write' | 'undo'>;

/** Writes entries and remembers the last writing, so that one bar can show it and take it back. */
export class Recorder {
	/** The last writing, until it is dismissed; without an id it can no longer be taken back. */
	last = $state.raw<{ readonly sentence: string; readonly id: EntryId | null } | null>(null);
	/** One sentence: what went wrong with the last writing and what to do; '' = nothing. */
	problem = $state('');
	/** A writing is under way: the button that started it takes no second press. */
	busy = $state(false);
	readonly #client: Writes;

	constructor(client: Writes) {
		this.#client = client;
	}

	/**
	 * Writes drafts in one transaction.
	 *
	 * @param sentence what the bar says: what happened, in the past tense
	 * @returns the entries, or null when they were not kept: the screen keeps what was typed, `problem` says why
	 */
	async write(
		drafts: readonly Draft[],
		sentence: string,
		options: { readonly audience?: Audience } = {}
	): Promise<readonly Entry[] | null> {
		if (this.busy) return null;
		this.busy = true;
		this.problem = '';
		try {
			// Drafts often come from $state; a proxy cannot be sent to a worker.
			const entries = await this.#client.write($state.snapshot(drafts) as readonly Draft[], options);
			this.last = { sentence, id: entries[0]?.id ?? null };
			return entries;
		} catch (error) {
			this.problem = error instanceof Error ? error.message : 'This was not kept. Press the button again.';
			return null;
		} finally {
			this.busy = false;
		}
	}

	/** Takes back the last writing, all of it. */
	async undo(): Promise<void> {
		const { last } = this;
		if (!last?.id) return;
		try {
			const result = await this.#client.undo(last.id);
			const sentence = typeof result === 'string' ? notUndone[result] : `Taken back: ${last.sentence}`;
			this.last = { sentence, id: null };
		} catch (error) {
			this.problem = error instanceof Error ? error.message : 'This could not be taken back. Try again.';
		}
	}

	dismiss(): void {
		this.last = null;
		this.problem = '';
	}
}
