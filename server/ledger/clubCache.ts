/**
 * The clubs in this process's memory: each loaded once, however many ask; let go a while after the last device and the
 * last piece of work.
 */
import type { LoadedClub } from './loadedClub.ts';

export interface ClubCache {
	/** Loads the club if need be and keeps it until `work` is done. */
	using<Result>(club: string, work: (loaded: LoadedClub) => Promise<Result>): Promise<Result>;
	isLoaded(club: string): boolean;
	readonly size: number;
	/** Waits for what is under way; nothing is loaded afterwards. */
	close(): Promise<void>;
}

/** @param load called once for each club; `rested` says that it may be time to let it go */
export function createClubCache(
	load: (club: string, rested: () => void) => Promise<LoadedClub>,
	unloadAfterMs: number
): ClubCache {
	const clubs = new Map<string, Promise<LoadedClub>>();
	/** Pieces of work that need the club, so that it is not unloaded between their steps. */
	const users = new Map<string, number>();
	const unloading = new Map<string, NodeJS.Timeout>();
	let isClosed = false;

	function loadOnce(club: string): Promise<LoadedClub> {
		const before = clubs.get(club);
		if (before) return before;
		if (isClosed) return Promise.reject(new Error('the ledger is closed'));
		const loading = load(club, () => unloadSoon(club));
		clubs.set(club, loading);
		loading.catch(() => clubs.delete(club));
		return loading;
	}

	function unloadSoon(club: string): void {
		if (isClosed) return;
		clearTimeout(unloading.get(club));
		const timer = setTimeout(() => {
			unloading.delete(club);
			unload(club).catch(() => {});
		}, unloadAfterMs);
		timer.unref();
		unloading.set(club, timer);
	}

	async function unload(club: string): Promise<void> {
		const loading = clubs.get(club);
		if (!loading || users.has(club)) return;
		const loaded = await loading;
		// Looked at again: somebody may have come while this waited.
		if (clubs.get(club) === loading && loaded.isIdle && !users.has(club)) clubs.delete(club);
	}

	return {
		async using(club, work) {
			users.set(club, (users.get(club) ?? 0) + 1);
			try {
				return await work(await loadOnce(club));
			} finally {
				const left = (users.get(club) ?? 1) - 1;
				if (left > 0) users.set(club, left);
				else users.delete(club);
				unloadSoon(club);
			}
		},
		isLoaded: (club) => clubs.has(club),
		get size() {
			return clubs.size;
		},
		async close() {
			isClosed = true;
			for (const loading of [...clubs.values()]) {
				const loaded = await loading.catch(() => null);
				await loaded?.look(async () => {});
			}
			for (const timer of unloading.values()) clearTimeout(timer);
			clubs.clear();
		}
	};
}
