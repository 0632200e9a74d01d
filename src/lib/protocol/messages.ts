/**
 * What device and server say to each other beside the Yjs sync messages, in frames of type `kithlineMessage`
 * (a varUint, as y-websocket's own message types are) followed by one JSON string (varString).
 *
 * A socket is opened at `/sync/<club>/<document>?edition=<edition>&protocol=<protocolVersion>&member=<member>` with the
 * session's cookie. Document names come from the manifest. `member` is whose ledger it is for, there and when the
 * manifest is asked for: where two people share a browser, the session may have become the other one's meanwhile, and
 * then the answer is that this member is signed out.
 */
export const kithlineMessage = 10;

export interface LogPosition {
	/** Yjs client id, 2^32 to 2^53 - 1. */
	readonly client: number;
	/** Next clock of that log. */
	readonly clock: number;
}

/** Device to server, first thing on a socket and after each reconnect. */
export interface MineMessage {
	readonly type: 'mine';
	/** Ids in the device's store of unshared entries (this audience). */
	readonly ids: readonly string[];
	/** Logs that this device wrote into this document, as far as it holds them. */
	readonly logs: readonly LogPosition[];
	/**
	 * The highest row number that the device has seen in this edition, from answers and stamps; 0 = none. After a move
	 * to a new edition it starts anew.
	 */
	readonly highestRow: number;
	/**
	 * Id of the entry in that row. A server restored from a backup may have filled the row with another entry since;
	 * the number alone would not show it.
	 */
	readonly highestId?: string;
}

/** Server to device: the answer to `mine`. */
export interface KnownMessage {
	readonly type: 'known';
	/** Of the ids asked about, those that the club has, read from committed rows. */
	readonly ids: readonly { readonly id: string; readonly where: 'open' | 'volume' | 'erased' }[];
	/** Of the logs named, those that are bound to another device: drop the copy, draw a new id. */
	readonly notYours: readonly number[];
	readonly lastRow: number;
	/** The server's clock, ms since 1970. */
	readonly serverTime: number;
}

/** Server to device: these are in committed rows (n = the club's number of the row). */
export interface AcceptedMessage {
	readonly type: 'accepted';
	readonly ids: readonly (readonly [id: string, n: number])[];
	readonly serverTime: number;
}

/** Server to device: this entry will never be taken as it is; go on without it in a new log. */
export interface RefusedMessage {
	readonly type: 'refused';
	readonly id: string;
	readonly reason: RefusalReason;
}

export type RefusalReason =
	'other-text' | 'too-large' | 'not-yours' | 'not-an-entry' | 'together-broken' | 'erased';

/** Server to device about one log: see the guard's table in DEVELOPERS.md. */
export interface LogMessage {
	readonly type: 'log-damaged' | 'send-from' | 'later';
	readonly client: number;
	/** For `send-from` and `later`: the clock to go on from. */
	readonly clock: number;
}

/** Server to device: rows that this device holds were lost here, or its copy is of another edition. */
export interface FetchAnewMessage {
	readonly type: 'fetch-anew';
}

export type DeviceMessage = MineMessage;
export type ServerMessage = KnownMessage | AcceptedMessage | RefusedMessage | LogMessage | FetchAnewMessage;

/** `GET /api/clubs/<club>/manifest`: asked for before connecting. */
export interface Manifest {
	readonly club: string;
	readonly protocol: number;
	/** A random name; a new one whenever volumes are rewritten (erasing, restoring, loading an archive). */
	readonly edition: string;
	readonly lastRow: number;
	readonly audiences: readonly ManifestAudience[];
}

export interface ManifestAudience {
	/** `club`, `officers` or `room:<room>:<epoch>`. */
	readonly audience: string;
	/** Name of the open document. */
	readonly document: string;
	readonly volumes: readonly ManifestVolume[];
}

/** A closed volume: `GET /api/clubs/<club>/volumes/<digest>` gives gzipped JSON lines, one VolumeRow each. */
export interface ManifestVolume {
	/** SHA-256 of the uncompressed bytes, lower-case hex. */
	readonly digest: string;
	readonly entries: number;
	readonly bytes: number;
	readonly firstRow: number;
	readonly lastRow: number;
}

/** One line of a volume. An erased row keeps id, log and clock and has an empty text. */
export interface VolumeRow {
	readonly n: number;
	readonly id: string;
	readonly client: number;
	readonly clock: number;
	/** The entry's JSON text, or '' when erased. */
	readonly text: string;
	/** Time of acceptance where the row carries a stamp (design: decisions, server's own, ids ahead of the clock). */
	readonly stamp?: number;
}
