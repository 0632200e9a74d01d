/**
 * A small honest device for tests: a real y-websocket client under Node with the protocol's own messages, and what it
 * has not been told is shared. It acts on answers as a device must, without a store on disk.
 */
import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import { WebSocket } from 'ws';
import { WebsocketProvider } from 'y-websocket';
import * as Y from 'yjs';
import { documentKey, entriesRoot, stampsRoot } from '#protocol/document.ts';
import { protocolVersion } from '#protocol/limits.ts';
import {
	kithlineMessage,
	type DeviceMessage,
	type Manifest,
	type ServerMessage
} from '#protocol/messages.ts';

export interface ClientOptions {
	readonly port: number;
	readonly club: string;
	/** `member device`. */
	readonly who: string;
	readonly client: number;
	readonly audience?: string;
	readonly manifest: () => Promise<Manifest>;
}

export class SyncClient {
	readonly doc: Y.Doc;
	readonly provider: WebsocketProvider;
	readonly heard: ServerMessage[] = [];
	readonly closed: number[] = [];
	/** Entry -> row number, as answered. */
	readonly shared = new Map<string, number>();
	/** Entry -> text, not answered yet. */
	readonly unshared = new Map<string, string>();
	readonly refused = new Map<string, string>();
	client: number;
	readonly #first: number;

	constructor(options: ClientOptions, manifest: Manifest, doc = new Y.Doc()) {
		const audience = manifest.audiences.find((each) => each.audience === (options.audience ?? 'club'));
		this.doc = doc;
		this.client = options.client;
		this.#first = options.client;
		doc.clientID = options.client;
		class Wire extends WebSocket {
			constructor(address: string | URL) {
				super(address, { headers: { 'x-who': options.who } });
			}
		}
		this.provider = new WebsocketProvider(
			`ws://127.0.0.1:${options.port}/sync/${encodeURIComponent(options.club)}`,
			encodeURIComponent(audience?.document ?? 'none'),
			doc,
			{
				connect: false,
				disableBc: true,
				maxBackoffTime: 100,
				params: { edition: manifest.edition, protocol: String(protocolVersion) },
				WebSocketPolyfill: Wire as unknown as typeof globalThis.WebSocket
			}
		);
		this.provider.messageHandlers[kithlineMessage] = (_encoder, decoder) =>
			this.#hear(JSON.parse(decoding.readVarString(decoder)) as ServerMessage);
		this.provider.on('connection-close', (event) => this.closed.push(event?.code ?? 0));
		this.provider.on('status', ({ status }) => {
			if (status === 'connected') this.say(this.mine());
		});
	}

	mine(): DeviceMessage {
		const highest = [...this.shared].sort((a, b) => b[1] - a[1])[0];
		return {
			type: 'mine',
			ids: [...this.unshared.keys()],
			logs: [{ client: this.client, clock: Y.getState(this.doc.store, this.client) }],
			highestRow: highest?.[1] ?? 0,
			...(highest ? { highestId: highest[0] } : {})
		};
	}

	say(message: unknown): void {
		const encoder = encoding.createEncoder();
		encoding.writeVarUint(encoder, kithlineMessage);
		encoding.writeVarString(encoder, JSON.stringify(message));
		this.sendRaw(encoding.toUint8Array(encoder));
	}

	sendRaw(frame: Uint8Array): void {
		this.provider.ws?.send(frame as Uint8Array<ArrayBuffer>);
	}

	/** Sends any update as a live one. */
	sendUpdate(update: Uint8Array): void {
		const encoder = encoding.createEncoder();
		encoding.writeVarUint(encoder, 0);
		encoding.writeVarUint(encoder, 2);
		encoding.writeVarUint8Array(encoder, update);
		this.sendRaw(encoding.toUint8Array(encoder));
	}

	/** Adds entries to this client's log, in one update. */
	add(...texts: readonly string[]): void {
		for (const text of texts) this.unshared.set((JSON.parse(text) as { id: string }).id, text);
		this.#write(texts);
	}

	#write(texts: readonly string[]): void {
		this.doc.transact(() => {
			for (const text of texts) {
				const clock = Y.getState(this.doc.store, this.client);
				this.doc.getMap(entriesRoot).set(documentKey(this.client, clock), text);
			}
		});
	}

	/** Goes on in a new log with all that is not shared. */
	newLog(): void {
		this.client += 1_000_003;
		this.doc.clientID = this.client;
		this.#write([...this.unshared.values()]);
	}

	#hear(message: ServerMessage): void {
		this.heard.push(message);
		if (message.type === 'accepted')
			for (const [id, n] of message.ids) {
				this.shared.set(id, n);
				this.unshared.delete(id);
			}
		else if (message.type === 'known') for (const { id } of message.ids) this.unshared.delete(id);
		else if (message.type === 'refused') {
			this.refused.set(message.id, message.reason);
			this.unshared.delete(message.id);
			this.newLog();
		} else if (message.type === 'log-damaged' && message.client === this.client) this.newLog();
		else if ((message.type === 'send-from' || message.type === 'later') && message.client === this.client) {
			const vector = Y.decodeStateVector(Y.encodeStateVector(this.doc));
			vector.set(message.client, message.clock);
			this.sendUpdate(Y.encodeStateAsUpdate(this.doc, Y.encodeStateVector(vector)));
		}
	}

	connect(): void {
		this.provider.connect();
	}

	/** Stops reading from the wire. */
	pause(): void {
		(this.provider.ws as unknown as WebSocket).pause();
	}

	resume(): void {
		(this.provider.ws as unknown as WebSocket | null)?.resume();
	}

	/** Texts of the document's entries by key, for comparing. */
	entries(): Record<string, unknown> {
		return this.doc.getMap(entriesRoot).toJSON() as Record<string, unknown>;
	}

	ids(): Set<string> {
		return new Set(
			Object.values(this.entries()).map((text) => (JSON.parse(String(text)) as { id: string }).id)
		);
	}

	stamps(): { id: string; n: number; time: number }[] {
		const stamps = Object.values(this.doc.getMap(stampsRoot).toJSON() as Record<string, string>);
		return stamps.map((text) => JSON.parse(text) as { id: string; n: number; time: number });
	}

	has(type: ServerMessage['type']): boolean {
		return this.heard.some((message) => message.type === type);
	}

	/** y-websocket says goodbye under the document's client id, and fails if that is not the one it began with. */
	#asAtFirst(leave: () => void): void {
		this.doc.clientID = this.#first;
		leave();
		this.doc.clientID = this.client;
	}

	disconnect(): void {
		this.#asAtFirst(() => this.provider.disconnect());
	}

	destroy(): void {
		this.#asAtFirst(() => this.provider.destroy());
	}
}
