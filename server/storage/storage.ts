/**
 * What the ledger asks of a disk. One small interface so that a host may outgrow the embedded database; every
 * implementation passes `tests/contract/storage.ts`.
 *
 * Promises that an implementation makes:
 * - `change` runs alone for its club, over all processes, and is on stable storage when its promise resolves. If
 *   `work` throws, nothing of it remains.
 * - Row numbers of a club have no gaps. The caller gives them; a number or a place in a log given twice throws.
 * - Ids are opaque text of any length, compared byte by byte; numbers up to 2^53 - 1 come back as they were.
 */

/** One accepted struct that carries an entry. */
export interface Row {
	/** The club's number, over all audiences, from 1. */
	readonly n: number;
	/** Name of the document that it was accepted into. */
	readonly document: string;
	readonly id: string;
	readonly client: number;
	readonly clock: number;
	/** The entry's JSON text; '' once it stands in a volume or was erased. */
	readonly text: string;
	/** Who sent it: for a brought entry, its writer. */
	readonly member: string;
	readonly device: string;
	/** The officer who brought it from a saved file. */
	readonly broughtBy: string | null;
	/** Time of acceptance, ms since 1970; never earlier than the row before. */
	readonly time: number;
	/** Clock of the row's stamp in the server's own log; null = not stamped. */
	readonly stampClock: number | null;
}

/** A log belongs to the device that first used it. */
export interface Binding {
	readonly document: string;
	readonly client: number;
	readonly member: string;
	readonly device: string;
}

export interface DocumentRecord {
	readonly document: string;
	readonly audience: string;
}

export interface ClubRecord {
	readonly club: string;
	readonly edition: string;
	/** Rises with every change other than rows, so that another process knows to load anew. */
	readonly version: number;
	readonly lastRow: number;
	readonly lastTime: number;
	/** The open documents, one for each audience. */
	readonly documents: readonly DocumentRecord[];
}

export interface VolumeRecord {
	readonly audience: string;
	/** SHA-256 of the uncompressed bytes, lower-case hex. */
	readonly digest: string;
	readonly entries: number;
	/** Size of the compressed content. */
	readonly bytes: number;
	readonly firstRow: number;
	readonly lastRow: number;
}

/** Where an entry of the club is. */
export interface Whereabouts {
	readonly id: string;
	readonly audience: string;
	/** The first row that carries it. */
	readonly n: number;
	readonly where: 'open' | 'volume' | 'erased';
	/** SHA-256 of the text, hex; '' when erased. */
	readonly textDigest: string;
}

export interface StoredClub {
	/** The club as it stands; null = never created. */
	club(): Promise<ClubRecord | null>;
	/** Rows of the open documents with a number above `n`, in order. */
	openRowsAfter(n: number): Promise<Row[]>;
	bindings(document: string): Promise<Binding[]>;
	volumes(): Promise<VolumeRecord[]>;
	/** The compressed content; null = no such volume in this club. */
	volume(digest: string): Promise<Uint8Array | null>;
	/** Those of the ids that the club has or had. */
	find(ids: readonly string[]): Promise<Map<string, Whereabouts>>;
	/** Id of the entry in a row; null = no such row. */
	idOfRow(n: number): Promise<string | null>;
}

export interface ClubChange extends StoredClub {
	create(edition: string): Promise<void>;
	setEdition(edition: string): Promise<void>;
	/** Opens a document for an audience; the audience's earlier one must have been closed. */
	openDocument(document: string, audience: string): Promise<void>;
	append(rows: readonly Row[]): Promise<void>;
	bind(bindings: readonly Binding[]): Promise<void>;
	/** Undoes what `work` did if it throws, and throws on; the rest of the change stands. */
	part<Result>(work: () => Promise<Result>): Promise<Result>;
	/** Closes a document: its rows leave their texts to the volume. Without a volume, when it has no rows. */
	closeDocument(document: string, volume: NewVolume | null): Promise<void>;
	/** Puts a volume in place of another, and marks ids as erased: their texts and digests are gone. */
	rewriteVolume(oldDigest: string, volume: NewVolume, erasedIds: readonly string[]): Promise<void>;
	/** Digests of the volumes that carry any of these ids. */
	volumesWith(ids: readonly string[]): Promise<string[]>;
}

export interface NewVolume extends VolumeRecord {
	readonly content: Uint8Array;
}

export interface Storage {
	read(club: string): StoredClub;
	change<Result>(club: string, work: (change: ClubChange) => Promise<Result>): Promise<Result>;
	/** After an erasure: also clears what the database keeps of it beside the rows, as far as it can. */
	scrub(): Promise<void>;
}
