/**
 * The ledger: the club's shared record on the server. Everyone may add, nobody can change or remove.
 *
 * Threats, and what answers them:
 * - A device harms others' entries, or speaks in another's name: guard.ts.
 * - A device is told "shared" and the entry is lost: answers are made from committed rows only (loadedClub.ts); the
 *   database syncs at every commit; memory is never ahead of the disk.
 * - A device is served half a club: nobody is answered before the load completes.
 * - A restored backup silently differs from the devices: a device says the highest row it saw and whose entry it was.
 *   A server that finds otherwise tells its operator and begins a new edition; each device can set this off once in
 *   a process, so that a lying one cannot make everybody fetch again and again.
 * - A private document is read by others: who may open an audience is decided outside (`mayOpen`), once for each
 *   connection and volume; here each document and volume knows its one audience.
 * - One club's trouble reaches another: clubs share nothing but the disk and the process.
 * Not defended against: the host's operator, who can read and write everything.
 */
import { randomUUID } from 'node:crypto';
import { v7 } from 'uuid';
import { limits, protocolVersion } from '#protocol/limits.ts';
import type { Manifest } from '#protocol/messages.ts';
import type { Draft, Entry, EntryId } from '#records/entry.ts';
import type { ClubChange, Row, Storage } from '#server/storage/storage.ts';
import { bring, type Brought } from './bring.ts';
import { createClubCache } from './clubCache.ts';
import { loadClub } from './clubMemory.ts';
import { createConnection, type Connection, type Peer } from './connection.ts';
import type { Writer } from './guard.ts';
import { loadClubOnce, NoSuchClub, type LoadedClub } from './loadedClub.ts';
import type { OpenDocument } from './openDocument.ts';
import { createStage, type Stage } from './stage.ts';
import { submit } from './submit.ts';
import { beginEdition, closeIntoVolume, eraseFromVolumes } from './volumes.ts';

/** An entry of the server's own; by and device are given here, and the id unless it was fixed beforehand. */
export type ServerDraft = Draft & { readonly version?: number; readonly id?: EntryId };

export type Log = (event: string, about: Readonly<Record<string, string | number>>) => void;

export interface LedgerParts {
	readonly storage: Storage;
	readonly clock: () => number;
	/** Whether an entry is a decision; from the records. */
	readonly needsStamp: (entry: Entry) => boolean;
	/** Codes and ids, no personal data. */
	readonly log: Log;
	/** How long a club stays in memory after its last device and last piece of work. */
	readonly unloadAfterMs?: number;
}

export interface Caller {
	readonly member: string;
	readonly device: string;
	/** Devices that this member has or had, beside this one. */
	readonly devices?: Iterable<string>;
}

export interface RowsEvent {
	readonly club: string;
	readonly audience: string;
	readonly rows: readonly Row[];
}

export interface Ledger {
	/** Makes a club with its first entries, in one commit. If there is one already, nothing happens: gives false. */
	createClub(club: string, first?: readonly ServerDraft[]): Promise<boolean>;
	hasClub(club: string): Promise<boolean>;
	/**
	 * Writes entries of the server's own (`by: club`), all in one commit; resolves when they are on disk. An id that
	 * the club has already is left as it is, so that a caller may try again after a crash.
	 */
	writeAsClub(club: string, drafts: readonly ServerDraft[], audience?: string): Promise<readonly EntryId[]>;
	/** An officer brings entries of somebody else from a saved file, ids and texts unchanged. */
	bring(
		club: string,
		audience: string,
		texts: readonly string[],
		officer: Caller
	): Promise<readonly Brought[]>;
	/** Audiences that have an open document. */
	audiences(club: string): Promise<readonly string[]>;
	/** What a device asks for before connecting, of the audiences that its member may open. */
	manifest(club: string, audiences: readonly string[]): Promise<Manifest>;
	/** Compressed lines of a volume; null = there is none of these audiences with that digest. */
	volume(club: string, digest: string, audiences: readonly string[]): Promise<Uint8Array | null>;
	/** Audience of an open document; null = there is no such document (any more). */
	audienceOf(club: string, document: string): Promise<string | null>;
	/** The rows of the open documents, read from memory. */
	openRows(club: string, audience: string): Promise<readonly Row[]>;
	connect(
		peer: Peer,
		where: { club: string; document: string; edition: string } & Caller
	): Promise<Connection | null>;
	/** Empties entries for good: closes open documents, rewrites volumes, begins a new edition. */
	erase(club: string, ids: readonly EntryId[]): Promise<number>;
	/** Closes an audience's open document into a volume. */
	closeVolume(club: string, audience: string): Promise<void>;
	/** After restoring a backup: closes all open documents and names a new edition. */
	newEdition(club: string): Promise<string>;
	/** A change of keepers: from now on the room writes into a new document. Gives its audience. */
	openRoomEpoch(club: string, room: string, epoch?: string): Promise<string>;
	/** Hears of committed rows, in order of `n` within an audience. Gives the way to stop. */
	onRows(heard: (event: RowsEvent) => void): () => void;
	/** Number of clubs in memory. */
	readonly loadedClubs: number;
	/** Closes connections, finishes what is under way. */
	close(): Promise<void>;
}

export function createLedger({
	storage,
	clock,
	needsStamp,
	log,
	unloadAfterMs = 10_000
}: LedgerParts): Ledger {
	const connections = new Set<Connection>();
	const hearers = new Set<(event: RowsEvent) => void>();
	/** Devices whose word about lost rows was acted upon. */
	const believed = new Set<string>();
	const clubs = createClubCache(
		(club, rested) =>
			loadClubOnce({ club, storage, clock, rested, heard: (document, rows) => tell(club, document, rows) }),
		unloadAfterMs
	);
	const { using } = clubs;

	function tell(club: string, document: OpenDocument, rows: readonly Row[]): void {
		for (const heard of hearers) {
			try {
				heard({ club, audience: document.audience, rows });
			} catch (error) {
				log('hearer-failed', { club, error: String(error) });
			}
		}
		if (isFull(document)) closeFull(club, document);
	}

	function isFull({ rows, logs }: OpenDocument): boolean {
		const year = (time: number) => new Date(time).getUTCFullYear();
		const first = rows[0];
		return (
			rows.length >= limits.openDocumentEntries ||
			logs.size >= limits.openDocumentLogs ||
			(first !== undefined && year(first.time) !== year(clock()))
		);
	}

	function closeFull(club: string, { name, audience }: OpenDocument): void {
		const close = (loaded: LoadedClub) =>
			loaded.rearrange(async (change, memory) => {
				const still = memory.documents.get(name);
				if (still && isFull(still)) await closeIntoVolume(change, still);
			});
		using(club, close).catch((error: unknown) =>
			log('volume-not-closed', { club, audience, error: String(error) })
		);
	}

	async function acceptAsClub(
		stage: Stage,
		document: OpenDocument,
		drafts: readonly ServerDraft[],
		now: number
	): Promise<EntryId[]> {
		const entries = drafts.map((draft): Entry => {
			const { id = v7({ msecs: now }), version = 1, ...rest } = draft;
			return { id, version, by: 'club', device: 'server', ...rest };
		});
		const known = await stage.find(entries.map(({ id }) => id));
		const accepted = entries
			.filter(({ id }) => !known.has(id))
			.map((entry) => ({
				id: entry.id,
				place: null,
				text: JSON.stringify(entry),
				member: 'club',
				device: 'server',
				broughtBy: null,
				isStamped: true
			}));
		await stage.accept(document, accepted, []);
		return entries.map(({ id }) => id);
	}

	function writeAsClub(club: string, drafts: readonly ServerDraft[], audience = 'club') {
		return using(club, (loaded) =>
			loaded.write((stage, now) => {
				const document = stage.documentOf(audience);
				if (!document) throw new RangeError(`writeAsClub requires an open audience, got ${audience}`);
				return acceptAsClub(stage, document, drafts, now);
			}, null)
		);
	}

	async function rowsMissing(club: string, device: string, highestRow: number): Promise<void> {
		const key = JSON.stringify([club, device]);
		if (believed.has(key)) return;
		believed.add(key);
		await using(club, async (loaded) => {
			log('rows-missing', { club, device, highestRow, lastRow: loaded.memory.lastRow });
			await loaded.rearrange(beginEdition);
		});
	}

	const rearrange = <Result>(
		club: string,
		work: (change: ClubChange, memory: LoadedClub['memory']) => Promise<Result>
	) => using(club, (loaded) => loaded.rearrange(work));

	return {
		createClub: (club, first = []) =>
			storage.change(club, async (change) => {
				if (await change.club()) return false;
				await change.create(randomUUID());
				for (const audience of ['club', 'officers']) await change.openDocument(randomUUID(), audience);
				const memory = await loadClub(change);
				const document = memory?.byAudience.get('club');
				if (!memory || !document) throw new NoSuchClub(club);
				const now = clock();
				await acceptAsClub(createStage(memory, change, now), document, first, now);
				return true;
			}),
		hasClub: async (club) => clubs.isLoaded(club) || (await storage.read(club).club()) !== null,
		writeAsClub,
		bring: (club, audience, texts, officer) =>
			using(club, (loaded) =>
				loaded.write((stage, now) => bring(stage, audience, texts, officer.member, { needsStamp, now }), null)
			),
		audiences: (club) => using(club, async ({ memory }) => [...memory.byAudience.keys()]),
		manifest: (club, audiences) =>
			using(club, (loaded) =>
				loaded.look(async (change): Promise<Manifest> => {
					const [record, volumes] = [await change.club(), await change.volumes()];
					if (!record) throw new NoSuchClub(club);
					const open = record.documents.filter(({ audience }) => audiences.includes(audience));
					return {
						club,
						protocol: protocolVersion,
						edition: record.edition,
						lastRow: record.lastRow,
						audiences: open.map(({ audience, document }) => ({
							audience,
							document,
							volumes: volumes
								.filter((volume) => volume.audience === audience)
								.map(({ digest, entries, bytes, firstRow, lastRow }) => ({
									digest,
									entries,
									bytes,
									firstRow,
									lastRow
								}))
						}))
					};
				})
			),
		async volume(club, digest, audiences) {
			const stored = storage.read(club);
			const found = (await stored.volumes()).find((volume) => volume.digest === digest);
			return found && audiences.includes(found.audience) ? stored.volume(digest) : null;
		},
		audienceOf: (club, document) =>
			using(club, async ({ memory }) => memory.documents.get(document)?.audience ?? null),
		openRows: (club, audience) =>
			using(club, async ({ memory }) => [...(memory.byAudience.get(audience)?.rows ?? [])]),
		connect: (peer, { club, document, edition, member, device, devices }) =>
			using(club, async (loaded) => {
				const open = loaded.memory.documents.get(document);
				if (!open || loaded.memory.edition !== edition) {
					peer.close('newEdition');
					return null;
				}
				const writer: Writer = { member, device, devices: new Set([device, ...(devices ?? [])]) };
				const connection = createConnection({
					loaded,
					peer,
					document,
					audience: open.audience,
					writer,
					clock,
					log,
					submit: (submission, from) =>
						loaded.write((stage, now) => submit(stage, submission, { needsStamp, now }), from),
					rowsMissing: ({ highestRow }) => rowsMissing(club, device, highestRow),
					onLeft: () => void connections.delete(connection)
				});
				connections.add(connection);
				return connection;
			}),
		erase: (club, ids) =>
			rearrange(club, async (change, memory) => {
				const found = [...(await change.find(ids)).values()];
				// Nobody is to fetch anew for nothing.
				if (found.every(({ where }) => where === 'erased')) return 0;
				await beginEdition(change, memory);
				return eraseFromVolumes(change, ids);
			}).then(async (count) => {
				await storage.scrub();
				log('erased', { club, count });
				return count;
			}),
		closeVolume: (club, audience) =>
			rearrange(club, async (change, { byAudience }) => {
				const document = byAudience.get(audience);
				if (!document) throw new RangeError(`closeVolume requires an open audience, got ${audience}`);
				if (document.rows.length > 0) await closeIntoVolume(change, document);
			}),
		newEdition: (club) => rearrange(club, beginEdition),
		openRoomEpoch: (club, room, epoch = randomUUID()) =>
			rearrange(club, async (change, { byAudience }) => {
				const audience = `room:${room}:${epoch}`;
				if (!byAudience.has(audience)) await change.openDocument(randomUUID(), audience);
				return audience;
			}),
		onRows(heard) {
			hearers.add(heard);
			return () => void hearers.delete(heard);
		},
		get loadedClubs() {
			return clubs.size;
		},
		async close() {
			for (const connection of [...connections]) connection.close('closing');
			await clubs.close();
		}
	};
}
