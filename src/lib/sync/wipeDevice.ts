/** Deletes everything of one member's club from this browser, and looks whether it is gone. */

/** A tab that hangs must not hang the sign-out; the answer then says that it is not gone. */
const closeTimeoutMs = 5_000;

/** @returns true when no database of this member's club is left */
export async function wipeDevice(storeName: string): Promise<boolean> {
	await allTabsClosed(storeName);
	const names = new Set([storeName, ...(await namesOf(storeName))]);
	await Promise.all([...names].map(deleteDatabase));
	return (await namesOf(storeName)).length === 0;
}

async function namesOf(storeName: string): Promise<string[]> {
	const databases = (await indexedDB.databases?.()) ?? [];
	return databases.flatMap(({ name }) =>
		name === storeName || name?.startsWith(`${storeName}:`) ? [name] : []
	);
}

async function allTabsClosed(storeName: string): Promise<void> {
	if (!navigator.locks) return;
	await navigator.locks
		.request(`${storeName}:open`, { signal: AbortSignal.timeout(closeTimeoutMs) }, () => {})
		.catch(() => {});
}

function deleteDatabase(name: string): Promise<void> {
	return new Promise((resolve) => {
		const timer = setTimeout(resolve, closeTimeoutMs);
		const done = () => {
			clearTimeout(timer);
			resolve();
		};
		const request = indexedDB.deleteDatabase(name);
		request.onsuccess = done;
		request.onerror = done;
	});
}
