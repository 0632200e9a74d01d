/**
 * The club worker: holds the device's ledger and the fold for one tab, answers questions, tells the page what changed.
 */
import { kinds } from '#records/kinds.ts';
import { DeviceLedger } from '#sync/deviceLedger.ts';
import { deviceProblem, DeviceError } from '#sync/problems.ts';
import { ClubFold } from './clubFold.ts';
import { questions, type Question } from './questions.ts';
import type { FromWorker, ToWorker, WorkerCallName, WorkerCalls } from './workerMessage.ts';

/** Subscriptions are asked again together, this long after the first change. */
const askAgainDelayMs = 40;
const saveAfterQuietMs = 20_000;
const minuteMs = 60_000;

export interface WorkerScope {
	postMessage(message: FromWorker): void;
	addEventListener(type: 'message', hear: (event: MessageEvent<ToWorker>) => void): void;
	addEventListener(type: 'online' | 'offline', hear: () => void): void;
}

export function serveClub(scope: WorkerScope): void {
	const worker = new ClubWorker((message) => scope.postMessage(message));
	scope.addEventListener('message', (event) => worker.hear(event.data));
	scope.addEventListener('online', () => worker.hear({ type: 'online', online: true }));
	scope.addEventListener('offline', () => worker.hear({ type: 'online', online: false }));
}

class ClubWorker {
	readonly #tell: (message: FromWorker) => void;
	readonly #fold = new ClubFold();
	readonly #subscriptions = new Map<number, { readonly name: string; readonly args: unknown }>();
	#ledger: DeviceLedger | undefined;
	#me = '';
	#opened: Promise<void> = new Promise(() => {});
	#loading = false;
	#loadAgain = false;
	/** What came while the fold was loading. */
	#queue: (() => void)[] = [];
	#askTimer: ReturnType<typeof setTimeout> | undefined;
	#saveTimer: ReturnType<typeof setTimeout> | undefined;
	#minuteTimer: ReturnType<typeof setInterval> | undefined;

	constructor(tell: (message: FromWorker) => void) {
		this.#tell = tell;
	}

	hear(message: ToWorker): void {
		switch (message.type) {
			case 'call':
				return void this.#answerCall(message.call, message.name, message.args);
			case 'subscribe':
				this.#subscriptions.set(message.subscription, message);
				return void this.#opened.then(() => this.#answer(message.subscription));
			case 'stop':
				return void this.#subscriptions.delete(message.subscription);
			case 'online':
				return this.#ledger?.setOnline(message.online);
			case 'retry':
				return this.#ledger?.retry();
			case 'dismiss':
				return this.#ledger?.dismiss(message.code);
		}
	}

	async #answerCall(call: number, name: WorkerCallName, args: unknown): Promise<void> {
		try {
			const value = await this.#call(name, args as never);
			this.#tell({ type: 'result', call, value });
		} catch (error) {
			const problem = error instanceof DeviceError ? deviceProblem(error.code) : null;
			this.#tell({ type: 'failure', call, problem, message: String(error) });
		}
	}

	async #call<Name extends WorkerCallName>(name: Name, args: WorkerCalls[Name]['args']): Promise<unknown> {
		const calls: {
			[N in WorkerCallName]: (given: WorkerCalls[N]['args']) => Promise<WorkerCalls[N]['result']>;
		} = {
			open: (place) => this.#open(place),
			write: async ({ drafts, audience }) => (await this.#ready()).write(drafts, audience),
			ask: async (question) => {
				await this.#opened;
				return this.#ask(question.name, question.args);
			},
			undo: async (id) => (await this.#ready()).undo(id),
			exportUnshared: async () => (await this.#ready()).exportUnshared(),
			importFile: async (content) => (await this.#ready()).importFile(content),
			bringAside: async () => (await this.#ready()).bringAside(),
			wipe: async ({ evenUnshared }) => (await this.#ready()).wipe(evenUnshared),
			close: async () => {
				clearInterval(this.#minuteTimer);
				await this.#ledger?.close();
			}
		};
		return (calls[name] as (given: unknown) => Promise<unknown>)(args);
	}

	async #ready(): Promise<DeviceLedger> {
		await this.#opened;
		if (!this.#ledger) throw new Error('the club is not open');
		return this.#ledger;
	}

	#open(place: WorkerCalls['open']['args']): Promise<void> {
		this.#opened = this.#openNow(place);
		return this.#opened;
	}

	async #openNow(place: WorkerCalls['open']['args']): Promise<void> {
		this.#me = place.member;
		const ledger = new DeviceLedger(
			{ ...place, versionOf: (kind) => kinds.get(kind)?.version ?? 1 },
			{
				added: (audience, addition) => this.#change(() => this.#fold.add(audience, addition)),
				removed: (ids) => this.#change(() => this.#fold.remove(ids)),
				reset: () => void this.#load().catch((error: unknown) => console.error('loading the club', error)),
				status: (status) => this.#tell({ type: 'status', status }),
				wiped: () => this.#tell({ type: 'wiped' })
			}
		);
		this.#ledger = ledger;
		this.#loading = true;
		await ledger.open(place.online);
		this.#loading = false;
		await this.#load();
		this.#minuteTimer = setInterval(() => this.#askAgainSoon(), minuteMs);
	}

	async #load(): Promise<void> {
		this.#loadAgain = true;
		if (this.#loading || !this.#ledger) return;
		this.#loading = true;
		try {
			while (this.#loadAgain) {
				this.#loadAgain = false;
				await this.#fold.load(this.#ledger);
			}
		} finally {
			this.#loading = false;
			for (const work of this.#queue.splice(0)) work();
			this.#askAgainSoon();
		}
	}

	#change(work: () => void): void {
		if (this.#loading) {
			this.#queue.push(work);
			return;
		}
		work();
		this.#askAgainSoon();
		clearTimeout(this.#saveTimer);
		this.#saveTimer = setTimeout(() => {
			if (this.#loading || !this.#ledger) return;
			this.#fold
				.saveIfWorth(this.#ledger)
				.catch((error: unknown) => console.error('saving the club state', error));
		}, saveAfterQuietMs);
	}

	#askAgainSoon(): void {
		if (this.#askTimer !== undefined) return;
		this.#askTimer = setTimeout(() => {
			this.#askTimer = undefined;
			for (const subscription of this.#subscriptions.keys()) this.#answer(subscription);
		}, askAgainDelayMs);
	}

	#answer(subscription: number): void {
		const asked = this.#subscriptions.get(subscription);
		if (!asked) return;
		try {
			this.#tell({ type: 'answer', subscription, value: this.#ask(asked.name, asked.args) });
		} catch (error) {
			console.error('question', asked.name, error);
			this.#tell({ type: 'answer-failed', subscription, message: String(error) });
		}
	}

	#ask(name: string, args: unknown): unknown {
		if (!Object.hasOwn(questions, name)) throw new RangeError(`ask requires a known question, got ${name}`);
		const question = questions[name as keyof typeof questions] as unknown as Question;
		return question(this.#fold.fold.state, args as never, {
			now: Math.floor(Date.now() / minuteMs) * minuteMs,
			me: this.#me,
			fold: this.#fold.fold,
			privateEntries: this.#fold.privateEntries
		});
	}
}
