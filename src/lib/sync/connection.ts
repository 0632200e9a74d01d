/**
 * One socket for one open document. It carries what the two ends say (messages.ts) and decides nothing: audienceLink
 * does. y-websocket reconnects by itself; online and offline are told to it, since it does not watch them.
 */
import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import { messageYjsSyncStep1, messageYjsSyncStep2, messageYjsUpdate } from 'y-protocols/sync';
import { WebsocketProvider } from 'y-websocket';
import * as Y from 'yjs';
import type { MemberId } from '#records/entry.ts';
import { limits, protocolVersion } from '#protocol/limits.ts';
import { kithlineMessage, type DeviceMessage, type ServerMessage } from '#protocol/messages.ts';

const syncMessage = 0;
/** Room for the frame's own bytes around an update. */
const frameOverheadBytes = 1024;

export interface ConnectionEvents {
	/** The socket is open; nothing has been sent on it yet. */
	opened(): void;
	/** The server has said which structs it has, and what it lacks is on its way. */
	answered(serverHas: ReadonlyMap<number, number>): void;
	/** What the server lacks is more than a frame may hold: rows were lost there. */
	tooFarApart(): void;
	message(message: ServerMessage): void;
	/** The socket is closed: by the server with a code, or `null` (no signal, our own doing). */
	closed(code: number | null, isFinal: boolean): void;
}

export interface Address {
	/** `ws(s)://host`, without a path. */
	readonly socketUrl: string;
	readonly club: string;
	/** Whose ledger it is; a session that has become another member's must not carry it. */
	readonly member: MemberId;
	readonly document: string;
	readonly edition: string;
}

export class Connection {
	readonly #provider: WebsocketProvider;

	constructor(doc: Y.Doc, address: Address, events: ConnectionEvents) {
		const provider = new WebsocketProvider(
			`${address.socketUrl}/sync/${encodeURIComponent(address.club)}`,
			encodeURIComponent(address.document),
			doc,
			{
				connect: false,
				disableBc: true,
				params: {
					edition: address.edition,
					protocol: String(protocolVersion),
					member: address.member
				}
			}
		);
		this.#provider = provider;
		let lastCode: number | null = null;
		provider.on('status', ({ status }) => {
			if (status === 'connected') events.opened();
		});
		provider.on('connection-close', (event) => {
			lastCode = event?.code ?? null;
			const isFinal = lastCode !== null && lastCode >= 4400 && lastCode < 4500;
			events.closed(lastCode, isFinal);
		});
		provider.messageHandlers[kithlineMessage] = (_encoder, decoder) => {
			events.message(JSON.parse(decoding.readVarString(decoder)) as ServerMessage);
		};
		const readSync = provider.messageHandlers[syncMessage]!;
		provider.messageHandlers[syncMessage] = (encoder, decoder, own, emitSynced, messageType) => {
			const start = decoder.pos;
			if (decoding.readVarUint(decoder) !== messageYjsSyncStep1) {
				decoder.pos = start;
				readSync(encoder, decoder, own, emitSynced, messageType);
				return;
			}
			const vector = decoding.readVarUint8Array(decoder);
			const update = Y.encodeStateAsUpdate(doc, vector);
			if (update.length > limits.maxFrameBytes - frameOverheadBytes) {
				events.tooFarApart();
				return;
			}
			encoding.writeVarUint(encoder, syncMessage);
			encoding.writeVarUint(encoder, messageYjsSyncStep2);
			encoding.writeVarUint8Array(encoder, update);
			// After this handler has returned the answer goes out; only then may more be added to the logs.
			queueMicrotask(() => events.answered(Y.decodeStateVector(vector)));
		};
	}

	connect(): void {
		this.#provider.connect();
	}

	disconnect(): void {
		this.#provider.disconnect();
	}

	get isConnected(): boolean {
		return this.#provider.wsconnected;
	}

	send(message: DeviceMessage): void {
		this.#sendFrame((encoder) => {
			encoding.writeVarUint(encoder, kithlineMessage);
			encoding.writeVarString(encoder, JSON.stringify(message));
		});
	}

	sendUpdate(update: Uint8Array): void {
		this.#sendFrame((encoder) => {
			encoding.writeVarUint(encoder, syncMessage);
			encoding.writeVarUint(encoder, messageYjsUpdate);
			encoding.writeVarUint8Array(encoder, update);
		});
	}

	destroy(): void {
		this.#provider.destroy();
		this.#provider.awareness.destroy();
	}

	#sendFrame(write: (encoder: encoding.Encoder) => void): void {
		const socket = this.#provider.ws;
		if (!this.#provider.wsconnected || socket?.readyState !== WebSocket.OPEN) return;
		const encoder = encoding.createEncoder();
		write(encoder);
		socket.send(encoding.toUint8Array(encoder));
	}
}
