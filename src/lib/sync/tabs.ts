/**
 * Several tabs are one device: the one that holds the Web Lock has the documents and the socket, the others hear from
 * it. If it closes, another takes over.
 */
export interface TabsEvents<Message> {
	hear(message: Message): void;
	/** This tab holds the lock from now on. */
	lead(): void;
}

export class Tabs<Message> {
	readonly #channel: BroadcastChannel;
	readonly #stop = new AbortController();
	#release: (() => void) | undefined;
	/** Whether this tab had the lock at once. */
	readonly leads: Promise<boolean>;

	constructor(name: string, events: TabsEvents<Message>) {
		this.#channel = new BroadcastChannel(name);
		this.#channel.onmessage = (event: MessageEvent<Message>) => events.hear(event.data);
		// Browsers give locks only to https and localhost. Without them each tab sends for itself, in logs of its own.
		if (!navigator.locks) {
			events.lead();
			this.leads = Promise.resolve(true);
			return;
		}
		const hold = () => {
			events.lead();
			return new Promise<void>((resolve) => (this.#release = resolve));
		};
		this.leads = new Promise((resolve) => {
			void navigator.locks.request(name, { ifAvailable: true }, (lock) => {
				resolve(lock !== null);
				return lock ? hold() : this.#wait(name, hold);
			});
		});
	}

	#wait(name: string, hold: () => Promise<void>): void {
		// Not awaited: the request without the lock ends here, the one that waits goes on.
		navigator.locks.request(name, { signal: this.#stop.signal }, hold).catch(() => {
			// Aborted by close().
		});
	}

	tell(message: Message): void {
		this.#channel.postMessage(message);
	}

	close(): void {
		this.#stop.abort();
		this.#release?.();
		this.#channel.close();
	}
}
