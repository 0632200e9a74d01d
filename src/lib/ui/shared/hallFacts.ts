import type { SyncStatus } from '#sync/syncStatus.ts';
import type { HallFacts } from './readyForHall.ts';

/**
 * What does this browser say about keeping the app and its data? Only asks; changes nothing.
 */
export async function hallFacts(status: SyncStatus, bagNumbers: number | null): Promise<HallFacts> {
	const storage = navigator.storage as StorageManager | undefined;
	const estimate = await storage?.estimate?.().catch(() => undefined);
	const persisted = await storage?.persisted?.().catch(() => undefined);
	return {
		secure: window.isSecureContext,
		appKept: await appIsKept(),
		recordAt: status.lastCaughtUpAt,
		bagNumbers,
		persisted: persisted ?? null,
		quotaBytes: estimate?.quota ?? null,
		homeScreen: matchMedia('(display-mode: standalone)').matches,
		evicted: status.storage.evicted,
		signedOut: status.appNeedsSignIn,
		unshared: status.unshared.length
	};
}

/** A worker answers for this page and the shell is in its cache. */
async function appIsKept(): Promise<boolean> {
	if (!navigator.serviceWorker?.controller) return false;
	try {
		return (await caches.match('/shell')) !== undefined;
	} catch {
		return false;
	}
}
