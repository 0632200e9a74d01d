/**
 * The club's own entries, written with the change that they tell of.
 *
 * A change of members, roles or keepers is one SQL transaction that also holds the entries about it (`clubEntry`);
 * after it the entries go to the ledger and leave the table. A process that stops in between writes them at its next
 * start: ids are fixed beforehand, and the ledger takes the same id and text twice as once.
 */
import { v7 as newId } from 'uuid';
import type { Db, Tx } from './tables.ts';
import type { ThingId } from '#records/entry.ts';
import type { Ledger } from '../ledger/ledger.ts';

/** What the club's entries need of the ledger. */
export type ClubLedger = Pick<Ledger, 'createClub' | 'writeAsClub' | 'openRoomEpoch'>;

export interface ClubDraft {
	readonly id: string;
	readonly kind: string;
	readonly happened: string;
	readonly about: readonly ThingId[];
	readonly body: unknown;
}

/** One of the steps that wait: an entry, or the opening of a room's private document. */
type Step = { readonly entry: ClubDraft } | { readonly room: ThingId; readonly epoch: string };

export interface ClubRecord {
	/** Adds an entry to the transaction. `at`: ms since 1970; becomes the id's time and `happened`. */
	say(
		transaction: Tx,
		club: string,
		kind: string,
		about: readonly ThingId[],
		body: unknown,
		at: number
	): Promise<void>;
	openEpoch(transaction: Tx, club: string, room: ThingId, epoch: string): Promise<void>;
	/** Hands on to the ledger what waits, in order; called after the transaction, and at the start for every club. */
	flush(club: string): Promise<void>;
	flushAll(): Promise<void>;
}

export function createClubRecord(db: Db, ledger: ClubLedger): ClubRecord {
	/** The last id's time and place within it, for each club: ids of one millisecond must rank as they were said. */
	const lastId = new Map<string, { msecs: number; seq: number }>();

	function nextId(club: string, at: number): string {
		const last = lastId.get(club);
		// A clock that was set back must not rank a later change before an earlier one.
		const next = last && at <= last.msecs ? { msecs: last.msecs, seq: last.seq + 1 } : { msecs: at, seq: 0 };
		lastId.set(club, next);
		return newId(next);
	}

	/** One flush of a club at a time, so that its entries keep their order. */
	const underWay = new Map<string, Promise<void>>();

	async function wait(transaction: Tx, club: string, id: string, step: Step) {
		const { last } = await transaction
			.selectFrom('clubEntry')
			.select((all) => all.fn.max('place').as('last'))
			.executeTakeFirstOrThrow();
		const place = Number(last ?? 0) + 1;
		await transaction
			.insertInto('clubEntry')
			.values({ id, club, place, draft: JSON.stringify(step) })
			.execute();
	}

	async function handOn(club: string): Promise<void> {
		const rows = await db
			.selectFrom('clubEntry')
			.selectAll()
			.where('club', '=', club)
			.orderBy('place')
			.execute();
		if (rows.length === 0) return;
		await ledger.createClub(club);
		let entries: ClubDraft[] = [];
		const write = async () => {
			if (entries.length > 0) await ledger.writeAsClub(club, entries);
			entries = [];
		};
		for (const row of rows) {
			const step = JSON.parse(row.draft) as Step;
			if ('entry' in step) {
				entries.push(step.entry);
				if (entries.length >= 50) await write();
			} else {
				await write();
				await ledger.openRoomEpoch(club, step.room, step.epoch);
			}
		}
		await write();
		for (let first = 0; first < rows.length; first += 200) {
			const ids = rows.slice(first, first + 200).map((row) => row.id);
			await db.deleteFrom('clubEntry').where('id', 'in', ids).execute();
		}
	}

	async function flush(club: string): Promise<void> {
		const before = underWay.get(club) ?? Promise.resolve();
		const mine = before.catch(() => {}).then(() => handOn(club));
		underWay.set(club, mine);
		try {
			await mine;
		} finally {
			if (underWay.get(club) === mine) underWay.delete(club);
		}
	}

	return {
		async say(transaction, club, kind, about, body, at) {
			const id = nextId(club, at);
			await wait(transaction, club, id, {
				entry: { id, kind, happened: new Date(at).toISOString(), about, body }
			});
		},
		async openEpoch(transaction, club, room, epoch) {
			await wait(transaction, club, `epoch:${room}:${epoch}`, { room, epoch });
		},
		flush,
		async flushAll() {
			const clubs = await db.selectFrom('clubEntry').select('club').distinct().execute();
			for (const { club } of clubs) await flush(club);
		}
	};
}
