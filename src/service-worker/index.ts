/**
 * Keeps the app on the device: every file of this build, and one empty page (the shell) that answers any address of a
 * club. Nothing signed-in is ever kept here. A new build waits until a person takes it; open pages go on with their
 * own files meanwhile.
 */
import { build, files, prerendered, version } from '$service-worker';

const worker = globalThis.self as unknown as ServiceWorkerGlobalScope;
const prefix = 'kithline-app-';
const cacheName = prefix + version;
/** Holds the address of the club that was opened last, so that the home-screen app opens it without a signal. */
const placeCache = 'kithline-place';
const shell = '/shell';
const kept = [...build, ...files.filter((file) => !file.startsWith('/samples/')), ...prerendered];

// In development there is no build to keep.
if (build.length > 0) start();

function start(): void {
	const keptSet = new Set(kept);
	worker.addEventListener('install', (event) => {
		event.waitUntil(caches.open(cacheName).then((cache) => cache.addAll(kept)));
	});
	worker.addEventListener('activate', (event) => {
		event.waitUntil(dropOldBuilds().then(() => worker.clients.claim()));
	});
	worker.addEventListener('message', (event) => {
		const { type } = (event.data ?? {}) as { type?: string };
		if (type === 'take-over') void worker.skipWaiting();
		// A page that was opened while the first worker started may have been left without one.
		if (type === 'claim') event.waitUntil(worker.clients.claim());
		if (type === 'forget') event.waitUntil(caches.delete(placeCache));
	});
	worker.addEventListener('fetch', (event) => {
		const { request } = event;
		const url = new URL(request.url);
		if (request.method !== 'GET' || url.origin !== worker.location.origin) return;
		if (request.mode === 'navigate') {
			if (url.pathname.startsWith('/c/')) event.respondWith(openClub(url));
			else if (url.pathname === '/') event.respondWith(openFront(request));
		} else if (keptSet.has(url.pathname) || url.pathname.startsWith('/_app/immutable/')) {
			// Any kept build may answer: a page of the build before goes on with its own files.
			event.respondWith(caches.match(url.pathname).then((file) => file ?? fetch(request)));
		}
	});
}

async function openClub(url: URL): Promise<Response> {
	const club = /^\/c\/[^/]+/.exec(url.pathname)?.[0];
	if (club) await (await caches.open(placeCache)).put('/last', new Response(club));
	const page = await (await caches.open(cacheName)).match(shell);
	return page ?? fetch(url);
}

async function openFront(request: Request): Promise<Response> {
	try {
		return await fetch(request);
	} catch {
		const last = await (await caches.open(placeCache)).match('/last');
		return last ? Response.redirect(await last.text(), 302) : Response.error();
	}
}

/** Keeps this build and the one before it, which other tabs may still be using. */
async function dropOldBuilds(): Promise<void> {
	const names = (await caches.keys()).filter((name) => name.startsWith(prefix)).sort();
	const before = names.filter((name) => name < cacheName).at(-1);
	await Promise.all(
		names.filter((name) => name !== cacheName && name !== before).map((name) => caches.delete(name))
	);
}
