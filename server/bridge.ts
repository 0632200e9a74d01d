/**
 * The one thing that the process's entry and the built app share: an object on `globalThis`. The app lives inside
 * SvelteKit's bundle, so importing it from main.ts would load a second copy of everything stateful.
 */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';

export interface Bridge {
	/** Takes over a request to upgrade to a websocket. */
	onUpgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void;
	/** Headers for every answer, files included. */
	readonly headers: Readonly<Record<string, string>>;
	readonly port: number;
	readonly host: string | null;
	/** Lines for the console once the server listens on `port`. */
	greeting(port: number): Promise<readonly string[]>;
	/** Closes sockets, waits until all requests are `answered`, closes the database. */
	close(answered: () => Promise<void>): Promise<void>;
}

const key = Symbol.for('kithline.bridge');
type Holder = { [key]?: Bridge };

/** What the app put on the bridge; null before it started. */
export function bridge(): Bridge | null {
	return (globalThis as Holder)[key] ?? null;
}

export function setBridge(value: Bridge | null): void {
	if (value) (globalThis as Holder)[key] = value;
	else delete (globalThis as Holder)[key];
}
