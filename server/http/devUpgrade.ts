/**
 * In development: hands the sync socket's upgrades from Vite's server to the app, which hooks.server.ts started, and
 * prints what the app has to say at the start.
 */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import type { Plugin } from 'vite';
import { bridge } from '../bridge.ts';

export function devUpgrade(): Plugin {
	return {
		name: 'kithline-dev-upgrade',
		configureServer(server) {
			server.httpServer?.once('listening', () => {
				const address = server.httpServer?.address();
				if (typeof address !== 'object' || !address) return;
				// The first request starts the app.
				fetch(`http://localhost:${address.port}/healthz`)
					.then(() => bridge()?.greeting(address.port))
					.then((lines) => lines?.forEach((line) => server.config.logger.info(line)))
					.catch((error: unknown) => server.config.logger.error(String(error)));
			});
			server.httpServer?.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
				// Vite's own socket for changed files stays Vite's. Before the first page there is no app: the device
				// comes again by itself.
				if (!request.url?.startsWith('/sync/')) return;
				const app = bridge();
				if (app) app.onUpgrade(request, socket, head);
				else socket.destroy();
			});
		}
	};
}
