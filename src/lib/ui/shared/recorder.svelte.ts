import type { Audience, Draft, Entry, EntryId } from '#records/entry.ts';
import type { ClubClient } from '#workers/clubClient.ts';

const notUndone = {
	'already-sending': 'It is on its way to the club already. Correct it in its history instead.',
	'not-here': 'It is shared already. Correct it in its history instead.'
} as const;

/** What the recorder needs of the club's client. */
export type Writes = Pick<ClubClient, 'write' | 'undo'>;

interface LastWriting {
	readonly sentence: string;
	/** First entry of the writing; null = it can no longer be taken back. */
	readonly id: EntryId | null;
	/** All writings that one undo takes back, oldest first: a long list is written in several. */
	readonly writings: readonly (readonly Entry[])[];
	readonly options: WriteOptions;
}
export interface WriteOptions {
	readonly audience?: Audience;
	/** Belongs to the writing before it: one undo takes back both. */
	readonly more?: boolean;
	/** What is written to take back a writing that was shared meanwhile; without it, undo only says so. */
	readonly takeBack?: (entries: readonly Entry[]) => readonly Draft[];
	/** Called once all of it is taken back: a screen puts back what was typed. */
	readonly undone?: () => void;
}

/** Writes entries and remembers the last writing, so that one bar can show it and take it back. */
export class Recorder {
	/** The last writing, until it is dismissed. */
	last = $state.raw<LastWriting | null>(null);
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
		options: WriteOptions = {}
	): Promise<readonly Entry[] | null> {
		if (this.busy) return null;
		this.busy = true;
		this.problem = '';
		try {
			// Drafts often come from $state; a proxy cannot be sent to a worker.
			const { audience = 'club' } = options;
			const entries = await this.#client.write($state.snapshot(drafts) as readonly Draft[], { audience });
			const before = options.more ? (this.last?.writings ?? []) : [];
			this.last = { sentence, id: entries[0]?.id ?? null, writings: [...before, entries], options };
			return entries;
		} catch (error) {
			this.problem = error instanceof Error ? error.message : 'This was not kept. Press the button again.';
			return null;
		} finally {
			this.busy = false;
		}
	}

	/** Takes back the last writing, all of it: what is shared already by a word that takes it back, where there is one. */
	async undo(): Promise<void> {
		const { last } = this;
		if (!last?.id || this.busy) return;
		this.busy = true;
		this.problem = '';
		const writings = [...last.writings];
		let left: keyof typeof notUndone | null = null;
		try {
			for (let entries = writings.at(-1); entries; entries = writings.at(-1)) {
				const result = await this.#client.undo(entries[0]?.id ?? last.id);
				if (typeof result === 'string') {
					if (last.options.takeBack) await this.#client.write(last.options.takeBack(entries));
					else left = result;
				}
				writings.pop();
			}
			const sentence = left ? notUndone[left] : `Taken back: ${last.sentence}`;
			this.last = { ...last, sentence, id: null, writings };
			if (!left) last.options.undone?.();
		} catch (error) {
			// What is still to be taken back is taken back by the next press.
			this.last = { ...last, writings };
			this.problem = error instanceof Error ? error.message : 'This could not be taken back. Try again.';
		} finally {
			this.busy = false;
		}
	}

	dismiss(): void {
		this.last = null;
		this.problem = '';
	}
}
