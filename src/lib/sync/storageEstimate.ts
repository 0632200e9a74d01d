import type { StorageStatus } from './syncStatus.ts';

/** How much room there is and whether the browser promises to keep it; only told to https and localhost. */
export async function storageEstimate(): Promise<Omit<StorageStatus, 'evicted'>> {
	const estimate = await navigator.storage?.estimate?.().catch(() => undefined);
	const persisted = await navigator.storage?.persisted?.().catch(() => undefined);
	return {
		persisted: persisted ?? null,
		usedBytes: estimate?.usage ?? null,
		quotaBytes: estimate?.quota ?? null
	};
}
