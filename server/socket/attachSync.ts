/**
 * The sync socket: `/sync/<club>/<document>?edition=<edition>&protocol=<version>&member=<member>`.
 *
 * A browser cannot see the status of a refused upgrade, so every refusal is an accepted socket closed with a code
 * (protocol/reasons.ts). Before sign-in a socket may hold little and not for long, whatever it sends. A throw in a
 * handler closes that socket, never the process.
 */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocketServer, type RawData, type WebSocket } from 'ws';
import { limits, protocolVersion } from '#protocol/limits.ts';
import { reasons, type ReasonName } from '#protocol/reasons.ts';
import type { Caller, Ledger, Log } from '#server/ledger/ledger.ts';
import type { Connection, Peer } from '#server/ledger/connection.ts';
import { createDoor } from './door.ts';

export interface SyncParts {
	readonly ledger: Ledger;
	/** Who the request's session belongs to, or why it is refused. */
	authenticate(request: IncomingMessage, club: string): Promise<Caller | ReasonName>;
	/** Whether a member may open an audience of a club. */
	mayOpen(member: string, club: string, audience: string): boolean | Promise<boolean>;
	/** Whether a page of that origin may connect; by default one of the same host. */
	mayConnectFrom?(origin: string, request: IncomingMessage): boolean;
	readonly clock: () => number;
	readonly log: Log;
	/** How often sessions and rights of open sockets are looked at again. */
	readonly recheckMs?: number;
}

export interface Sync {
	/** For the http server's `upgrade` event. False = the path is not ours and the socket was left alone. */
	upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): boolean;
	/** Closes the sockets that match, for example at sign-out. */
	disconnect(who: { member?: string; device?: string; club?: string }, reason: ReasonName): void;
	/** Looks again at the session and rights of every open socket. */
	recheck(): Promise<void>;
	readonly sockets: number;
	close(): Promise<void>;
}

interface Open {
	readonly request: IncomingMessage;
	readonly wire: WebSocket;
	readonly place: Place;
	readonly caller: Caller;
	readonly audience: string;
}

interface Place {
	readonly club: string;
	readonly document: string;
	readonly edition: string;
	readonly protocol: number;
	/** Whose ledger the page holds; null = it does not say. */
	readonly member: string | null;
}

const maxBytesBeforeSignIn = limits.maxFrameBytes;
const maxFramesBeforeSignIn = 16;

/** @returns null when the path is not the sync socket's */
function placeOf(request: IncomingMessage): Place | null {
	const url = new URL(request.url ?? '/', 'http://server');
	const [, sync, club, document, ...rest] = url.pathname.split('/');
	if (sync !== 'sync' || !club || !document || rest.length > 0) return null;
	try {
		return {
			club: decodeURIComponent(club),
			document: decodeURIComponent(document),
			edition: url.searchParams.get('edition') ?? '',
			protocol: Number(url.searchParams.get('protocol') ?? Number.NaN),
			member: url.searchParams.get('member')
		};
	} catch {
		return null;
	}
}

const isSameHost = (origin: string, request: IncomingMessage) => {
	try {
		return new URL(origin).host === request.headers.host;
	} catch {
		return false;
	}
};

/** A close reason may have 123 bytes; the device finds the sentence by the code. */
function closeWire(wire: WebSocket, reason: ReasonName): void {
	wire.close(reasons[reason].code, reason);
}

const bytesOf = (data: RawData): Uint8Array =>
	Array.isArray(data) ? Buffer.concat(data) : new Uint8Array(data as ArrayBuffer);

export function attachSync(parts: SyncParts): Sync {
	const { ledger, log } = parts;
	const server = new WebSocketServer({
		noServer: true,
		maxPayload: limits.maxFrameBytes,
		perMessageDeflate: false
	});
	const open = new Set<Open>();
	const door = createDoor(limits);
	const mayConnectFrom = parts.mayConnectFrom ?? isSameHost;

	async function admit(request: IncomingMessage, place: Place): Promise<ReasonName | Omit<Open, 'wire'>> {
		const { origin } = request.headers;
		if (origin !== undefined && !mayConnectFrom(origin, request)) return 'notAllowed';
		const caller = await parts.authenticate(request, place.club);
		if (typeof caller === 'string') return caller;
		// Somebody else has signed in on that browser while this member's page stayed open.
		if (place.member !== null && place.member !== caller.member) return 'signedOut';
		if (place.protocol < protocolVersion || Number.isNaN(place.protocol)) return 'appTooOld';
		if (!(await ledger.hasClub(place.club))) return 'notAllowed';
		const audience = await ledger.audienceOf(place.club, place.document);
		if (audience === null) return 'newEdition';
		if (!(await parts.mayOpen(caller.member, place.club, audience))) return 'notAllowed';
		return { request, place, caller, audience };
	}

	async function begin(wire: WebSocket, request: IncomingMessage, place: Place): Promise<void> {
		let connection: Connection | null = null;
		const early: Uint8Array[] = [];
		let earlyBytes = 0;
		const deadline = setTimeout(() => closeWire(wire, 'signedOut'), limits.signInDeadlineMs);
		const leaveDoor = door.enter();
		if (!leaveDoor) {
			clearTimeout(deadline);
			return closeWire(wire, 'tooMuch');
		}
		wire.on('message', (data) => {
			lastHeard.set(wire, parts.clock());
			const frame = bytesOf(data);
			if (connection) return connection.receive(frame);
			earlyBytes += frame.byteLength;
			early.push(frame);
			if (early.length > maxFramesBeforeSignIn || earlyBytes > maxBytesBeforeSignIn)
				closeWire(wire, 'tooMuch');
		});
		const admitted = await admit(request, place).finally(() => {
			clearTimeout(deadline);
			leaveDoor();
		});
		if (typeof admitted === 'string') return closeWire(wire, admitted);
		if (wire.readyState !== wire.OPEN) return;
		const { caller } = admitted;
		const leave = door.open(
			place.club,
			JSON.stringify([place.club, caller.member, caller.device, place.document])
		);
		if (!leave) return closeWire(wire, 'tooMuch');
		const entry: Open = { ...admitted, wire };
		open.add(entry);
		wire.on('close', () => {
			open.delete(entry);
			leave();
			connection?.left();
		});
		const peer: Peer = {
			send: (frame) => {
				if (wire.readyState === wire.OPEN) wire.send(frame);
			},
			close: (reason) => closeWire(wire, reason),
			get unsentBytes() {
				return wire.bufferedAmount;
			}
		};
		connection = await ledger.connect(peer, { ...place, ...caller });
		if (wire.readyState !== wire.OPEN) connection?.left();
		for (const frame of early) connection?.receive(frame);
	}

	const lastHeard = new WeakMap<WebSocket, number>();
	const idle = setInterval(() => {
		const now = parts.clock();
		for (const { wire } of open) {
			// y-websocket speaks every 15 s; a socket silent for so long has nobody at the other end.
			if (now - (lastHeard.get(wire) ?? now) > limits.idleTimeoutMs) wire.terminate();
		}
	}, limits.idleTimeoutMs / 4);
	idle.unref();

	async function recheck(): Promise<void> {
		for (const { request, place, caller, audience, wire } of [...open]) {
			try {
				const now = await parts.authenticate(request, place.club);
				if (typeof now === 'string') closeWire(wire, now);
				else if (!(await parts.mayOpen(caller.member, place.club, audience))) closeWire(wire, 'notAllowed');
			} catch (error) {
				log('recheck-failed', { club: place.club, error: String(error) });
				closeWire(wire, 'serverError');
			}
		}
	}
	const rechecking = setInterval(() => void recheck(), parts.recheckMs ?? 60_000);
	rechecking.unref();

	return {
		upgrade(request, socket, head) {
			const place = placeOf(request);
			if (!place) return false;
			server.handleUpgrade(request, socket, head, (wire) => {
				lastHeard.set(wire, parts.clock());
				wire.on('error', (error) => log('socket-error', { club: place.club, error: error.message }));
				begin(wire, request, place).catch((error: unknown) => {
					log('socket-failed', { club: place.club, error: String(error) });
					closeWire(wire, 'serverError');
				});
			});
			return true;
		},
		disconnect({ member, device, club }, reason) {
			for (const { caller, place, wire } of open) {
				const matches =
					(member === undefined || caller.member === member) &&
					(device === undefined || caller.device === device) &&
					(club === undefined || place.club === club);
				if (matches) closeWire(wire, reason);
			}
		},
		recheck,
		get sockets() {
			return server.clients.size;
		},
		async close() {
			clearInterval(idle);
			clearInterval(rechecking);
			for (const wire of server.clients) closeWire(wire, 'closing');
			const forced = setTimeout(() => server.clients.forEach((wire) => wire.terminate()), 2_000);
			await new Promise((closed) => server.close(closed));
			clearTimeout(forced);
		}
	};
}
