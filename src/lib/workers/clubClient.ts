/**
 * A page's way to its club: write, ask, listen. Everything else happens in the worker, off the drawing thread.
 */
import type { Audience, Draft, Entry, EntryId } from '#records/entry.ts';
import type { UndoResult } from '#sync/deviceStore.ts';
import type { DeviceProblem, DeviceProblemCode } from '#sync/problems.ts';
import { statusAtStart, type SyncStatus } from '#sync/syncStatus.ts';
import { forgetPerson } from '#sync/people.ts';
import type { QuestionAnswer, QuestionArgs, QuestionName } from './questions.ts';
import { forgetPlans } from './planDraft.ts';
import { readStoreMark, setStoreMark, type StoreMark } from './storeMark.ts';
import type { FromWorker, OpenPlace, ToWorker, WorkerCallName, WorkerCalls } from './workerMessage.ts';

/** What a failed call throws: `problem.sentence` is for the person; nothing that was typed is kept yet. */
export class ClubCallError extends Error {
	readonly problem: DeviceProblem | null;
	constructor(message: string, problem: DeviceProblem | null) {
		super(problem?.sentence ?? message);
		this.name = 'ClubCallError';
		this.problem = problem;
	}
}

interface Waiting {
	resolve(value: unknown): void;
	reject(error: Error): void;
}

export class ClubClient {
	readonly place: OpenPlace;
	/** The mark of an earlier visit, for the sentence after an eviction. */
	readonly markBefore: StoreMark | null;
	/** Resolves when what is on this device is loaded; needs no network. */
	readonly opened: Promise<void>;
	readonly #worker: Worker;
	readonly #waiting = new Map<number, Waiting>();
	readonly #callbacks = new Map<number, { heard(value: never): void; failed?: (message: string) => void }>();
	readonly #statusWatchers = new Set<(status: SyncStatus) => void>();
	readonly #wipedWatchers = new Set<() => void>();
	readonly #stop = new AbortController();
	#status: SyncStatus = statusAtStart;
	#unshared = new Map<EntryId, 'device' | 'refused'>();
	#next = 0;
	#marked = -1;
	#wiping = false;

	constructor(place: OpenPlace, worker: Worker) {
		this.place = place;
		this.#worker = worker;
		worker.addEventListener('message', (event: MessageEvent<FromWorker>) => this.#hear(event.data));
		worker.addEventListener('error', (event) => this.#failAll(event.message));
		const tellOnline = () => this.#post({ type: 'online', online: navigator.onLine });
		addEventListener('online', tellOnline, { signal: this.#stop.signal });
		addEventListener('offline', tellOnline, { signal: this.#stop.signal });
		this.markBefore = readStoreMark(place.club, place.member);
		this.opened = this.#call('open', {
			...place,
			hadStore: this.markBefore !== null,
			online: navigator.onLine
		}).then(() => this.#mark(this.#status));
	}

	get status(): SyncStatus {
		return this.#status;
	}

	/** Called at once and at every change. @returns stops it */
	watchStatus(watcher: (status: SyncStatus) => void): () => void {
		this.#statusWatchers.add(watcher);
		watcher(this.#status);
		return () => this.#statusWatchers.delete(watcher);
	}

	/** Another tab signed out. */
	watchWiped(watcher: () => void): () => void {
		this.#wipedWatchers.add(watcher);
		return () => this.#wipedWatchers.delete(watcher);
	}

	/**
	 * Resolves when the entries are safe on this device, in one transaction; several are written `together`.
	 * @throws ClubCallError with a sentence; keep what was typed on the screen then
	 */
	write(drafts: readonly Draft[], { audience = 'club' }: { audience?: Audience } = {}): Promise<Entry[]> {
		return this.#call('write', { drafts, audience });
	}

	ask<Name extends QuestionName>(name: Name, args: QuestionArgs<Name>): Promise<QuestionAnswer<Name>> {
		return this.#call('ask', { name, args }) as Promise<QuestionAnswer<Name>>;
	}

	/** The answer now and whenever it may have changed; the newest wins. @returns stops it */
	subscribe<Name extends QuestionName>(
		name: Name,
		args: QuestionArgs<Name>,
		heard: (answer: QuestionAnswer<Name>) => void,
		failed?: (message: string) => void
	): () => void {
		const subscription = this.#next++;
		this.#callbacks.set(subscription, { heard, ...(failed ? { failed } : {}) });
		this.#post({ type: 'subscribe', subscription, name, args });
		return () => {
			this.#callbacks.delete(subscription);
			this.#post({ type: 'stop', subscription });
		};
	}

	/** Where an entry of one's own is; the verdict is the fold's to say. */
	sharingOf(id: EntryId): 'device' | 'shared' | 'needs-you' {
		const state = this.#unshared.get(id);
		if (state === undefined) return 'shared';
		return state === 'refused' ? 'needs-you' : 'device';
	}

	/** Takes back an entry and those written with it, unless it may have been shared. */
	undo(id: EntryId): Promise<UndoResult> {
		return this.#call('undo', id);
	}

	exportUnshared(): Promise<string> {
		return this.#call('exportUnshared', undefined);
	}

	importFile(content: string): Promise<{ added: number; aside: number; unreadable: number }> {
		return this.#call('importFile', content);
	}

	/** On an officer's device: gives the club back the entries held aside. @throws ClubCallError with a sentence */
	bringAside(): Promise<{ brought: number; left: number }> {
		return this.#call('bringAside', undefined);
	}

	/** Signs this browser out of the club: closes all tabs' stores, deletes, looks whether it is gone. */
	async wipe({ evenUnshared = false } = {}): Promise<{ gone: boolean; unshared: number }> {
		this.#wiping = true;
		const result = await this.#call('wipe', { evenUnshared });
		if (!result.gone) {
			this.#wiping = result.unshared === 0 || evenUnshared;
			return result;
		}
		setStoreMark(this.place.club, this.place.member, null);
		forgetPlans(this.place);
		await forgetPerson(this.place.club, this.place.member);
		return result;
	}

	/** Asks the browser to keep the data; call it from a tap, some browsers ask the person. */
	async askToKeep(): Promise<boolean> {
		return (await navigator.storage?.persist?.()) ?? false;
	}

	retry(): void {
		this.#post({ type: 'retry' });
	}

	dismiss(code: DeviceProblemCode): void {
		this.#post({ type: 'dismiss', code });
	}

	async close(): Promise<void> {
		this.#stop.abort();
		await this.#call('close', undefined);
		this.#worker.terminate();
	}

	#call<Name extends WorkerCallName>(
		name: Name,
		args: WorkerCalls[Name]['args']
	): Promise<WorkerCalls[Name]['result']> {
		const call = this.#next++;
		return new Promise((resolve, reject) => {
			this.#waiting.set(call, { resolve: resolve as (value: unknown) => void, reject });
			this.#post({ type: 'call', call, name, args });
		});
	}

	#post(message: ToWorker): void {
		this.#worker.postMessage(message);
	}

	#hear(message: FromWorker): void {
		switch (message.type) {
			case 'result':
				this.#waiting.get(message.call)?.resolve(message.value);
				this.#waiting.delete(message.call);
				return;
			case 'failure':
				this.#waiting.get(message.call)?.reject(new ClubCallError(message.message, message.problem));
				this.#waiting.delete(message.call);
				return;
			case 'answer':
				return this.#callbacks.get(message.subscription)?.heard(message.value as never);
			case 'answer-failed':
				return this.#callbacks.get(message.subscription)?.failed?.(message.message);
			case 'status':
				return this.#hearStatus(message.status);
			case 'wiped':
				this.#wiping = true;
				for (const watcher of this.#wipedWatchers) watcher();
		}
	}

	#hearStatus(status: SyncStatus): void {
		this.#status = status;
		this.#unshared = new Map(status.unshared.map(({ id, state }) => [id, state]));
		this.#mark(status);
		for (const watcher of this.#statusWatchers) watcher(status);
	}

	#mark({ unshared }: SyncStatus): void {
		if (this.#wiping || this.#marked === unshared.length) return;
		this.#marked = unshared.length;
		setStoreMark(this.place.club, this.place.member, { unshared: unshared.length, at: Date.now() });
	}

	#failAll(message: string): void {
		for (const { reject } of this.#waiting.values()) reject(new ClubCallError(message, null));
		this.#waiting.clear();
	}
}

/** Starts the worker and opens the club on this device. */
export function open(place: OpenPlace): ClubClient {
	const worker = new Worker(new URL('./clubWorker.ts', import.meta.url), { type: 'module', name: 'club' });
	return new ClubClient(place, worker);
}
