/**
 * A club in this process: loaded once, its writings taken in groups, one transaction for each group under the club's
 * lock. Only after the commit memory changes, answers go out and other devices hear of it.
 */
import type { ClubChange, Row, Storage } from '#server/storage/storage.ts';
import { catchUp, loadClub, type ClubMemory } from './clubMemory.ts';
import { createFanOut, type FanOut, type Listener } from './fanOut.ts';
import type { OpenDocument } from './openDocument.ts';
import { createStage, type Stage } from './stage.ts';

/** A device in a club: closed when its document is closed or the edition is another. */
export interface Member extends Listener {
	readonly document: string;
	readonly edition: string;
	moveOn(): void;
}

export interface LoadedClub {
	readonly memory: ClubMemory;
	readonly members: ReadonlySet<Member>;
	join(member: Member): void;
	leave(member: Member): void;
	/**
	 * Takes part in the next group; resolves after the commit, rejects if this part or the commit failed.
	 * @param from whoever wrote it
	 */
	write<Result>(work: (stage: Stage, now: number) => Promise<Result>, from: Member | null): Promise<Result>;
	/** A change of documents or editions: alone under the lock, then all is read anew. */
	rearrange<Result>(
		work: (change: ClubChange, memory: ClubMemory, now: number) => Promise<Result>
	): Promise<Result>;
	/** Reads under the lock. */
	look<Result>(work: (change: ClubChange) => Promise<Result>): Promise<Result>;
	/** Whether nothing is under way and nobody is here. */
	readonly isIdle: boolean;
}

interface Waiting {
	work(stage: Stage, now: number): Promise<unknown>;
	readonly from: Member | null;
	done(result: unknown): void;
	failed(error: unknown): void;
}

/** Thrown when a club does not exist. */
export class NoSuchClub extends Error {
	constructor(club: string) {
		super(`no club ${club}`);
	}
}

export interface ClubParts {
	readonly club: string;
	readonly storage: Storage;
	readonly clock: () => number;
	/** Called after rows were committed, in order of `n`, also for rows of other processes. */
	readonly heard: (document: OpenDocument, rows: readonly Row[]) => void;
	/** Called whenever something ended, so that it may be the moment to unload. */
	readonly rested: () => void;
}

export async function loadClubOnce(parts: ClubParts): Promise<LoadedClub> {
	const { club, storage, clock } = parts;
	let memory = await storage.change(club, (change) => existing(change));
	const members = new Set<Member>();
	let fanOuts = new Map<string, FanOut>();
	let waiting: Waiting[] = [];
	let underWay = 0;
	let lock: Promise<unknown> = Promise.resolve();
	let isDraining = false;

	async function existing(change: ClubChange): Promise<ClubMemory> {
		const loaded = await loadClub(change);
		if (!loaded) throw new NoSuchClub(club);
		return loaded;
	}

	function fanOut(document: string): FanOut {
		let found = fanOuts.get(document);
		if (!found) fanOuts.set(document, (found = createFanOut(clock)));
		return found;
	}

	/** One after the other, and counted, so that a club under way is not unloaded. */
	function locked<Result>(work: () => Promise<Result>): Promise<Result> {
		underWay += 1;
		const mine = lock.then(work);
		lock = mine.then(
			() => {},
			() => {}
		);
		return mine.finally(() => {
			underWay -= 1;
			parts.rested();
		});
	}

	/** Other documents or another edition: whoever stands elsewhere must fetch and come again. */
	function replace(loaded: ClubMemory): void {
		for (const open of fanOuts.values()) open.flush();
		memory = loaded;
		fanOuts = new Map([...fanOuts].filter(([document]) => memory.documents.has(document)));
		for (const member of [...members])
			if (member.edition !== memory.edition || !memory.documents.has(member.document)) member.moveOn();
	}

	async function upToDate(change: ClubChange): Promise<void> {
		const news = await catchUp(memory, change);
		if (news === 'anew') replace(await existing(change));
		else tell(news, () => null);
	}

	function tell(rows: readonly Row[], from: (row: Row) => Member | null): void {
		for (const document of memory.documents.values()) {
			const own = rows.filter((row) => row.document === document.name);
			if (own.length === 0) continue;
			fanOut(document.name).publish(own, from);
			parts.heard(document, own);
		}
	}

	async function commitGroup(group: readonly Waiting[]): Promise<void> {
		const answers: (() => void)[] = [];
		const writers = new Map<number, Member | null>();
		const now = clock();
		const stage = await storage.change(club, async (change) => {
			await upToDate(change);
			const staged = createStage(memory, change, now);
			for (const { work, from, done, failed } of group) {
				const before = staged.rows.length;
				try {
					const result = await staged.part(() => work(staged, now));
					for (const row of staged.rows.slice(before)) writers.set(row.n, from);
					answers.push(() => done(result));
				} catch (error) {
					answers.push(() => failed(error));
				}
			}
			return staged;
		});
		for (const document of memory.documents.values())
			document.add(
				stage.rows.filter((row) => row.document === document.name),
				stage.bindings.filter((binding) => binding.document === document.name)
			);
		const last = stage.rows.at(-1);
		if (last) [memory.lastRow, memory.lastTime] = [last.n, last.time];
		for (const answer of answers) answer();
		tell(stage.rows, (row) => writers.get(row.n) ?? null);
	}

	async function drain(): Promise<void> {
		while (waiting.length > 0) {
			const group = waiting;
			waiting = [];
			try {
				await commitGroup(group);
			} catch (error) {
				for (const { failed } of group) failed(error);
			}
		}
		isDraining = false;
	}

	return {
		get memory() {
			return memory;
		},
		members,
		join(member) {
			members.add(member);
			fanOut(member.document).listeners.add(member);
		},
		leave(member) {
			members.delete(member);
			fanOuts.get(member.document)?.listeners.delete(member);
			parts.rested();
		},
		write: <Result>(work: (stage: Stage, now: number) => Promise<Result>, from: Member | null) =>
			new Promise<Result>((resolve, reject) => {
				waiting.push({ work, from, done: (result) => resolve(result as Result), failed: reject });
				if (isDraining) return;
				isDraining = true;
				// What arrives in the same turn of the event loop shares the commit.
				void locked(async () => {
					await new Promise((turn) => setImmediate(turn));
					await drain();
				});
			}),
		rearrange: (work) =>
			locked(async () => {
				const result = await storage.change(club, async (change) => {
					await upToDate(change);
					return work(change, memory, clock());
				});
				replace(await storage.change(club, existing));
				return result;
			}),
		look: (work) => locked(() => storage.change(club, work)),
		get isIdle() {
			return members.size === 0 && underWay === 0 && waiting.length === 0;
		}
	};
}
