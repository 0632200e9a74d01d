const hourMs = 3_600_000;

/**
 * Starts the service worker that keeps the app on this device, and asks for a newer build when the app comes back to
 * the front, at most once an hour. Does nothing where the browser has none (plain http, some private windows).
 */
export function registerWorker(): void {
	if (!('serviceWorker' in navigator)) return;
	const { serviceWorker } = navigator;
	let asked = Date.now();
	serviceWorker
		.register('/service-worker.js', { updateViaCache: 'none' })
		.then((registration) => {
			document.addEventListener('visibilitychange', () => {
				if (document.visibilityState !== 'visible' || Date.now() - asked < hourMs) return;
				asked = Date.now();
				// Fails without a signal; the next time does.
				registration.update().catch(() => undefined);
			});
		})
		.catch((error: unknown) => console.warn('The app could not be kept on this device:', error));
	serviceWorker.ready
		.then((registration) => {
			if (!serviceWorker.controller) registration.active?.postMessage({ type: 'claim' });
		})
		.catch(() => undefined);
}
