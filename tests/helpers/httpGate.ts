/** A way to a server that carries pages and, only while it is open, the sync sockets: a signal too weak to share by. */
import { once } from 'node:events';
import { createServer, request, type IncomingMessage, type Server } from 'node:http';
import { connect } from 'node:net';
import type { Duplex } from 'node:stream';

export class HttpGate {
	readonly #farPort: number;
	readonly #server: Server;
	readonly #sockets = new Set<Duplex>();
	#open = true;

	constructor(farPort: number) {
		this.#farPort = farPort;
		this.#server = createServer((asked, answer) => {
			const { url, method, headers } = asked;
			const passed = request({ port: farPort, path: url, method, headers }, (given) => {
				answer.writeHead(given.statusCode ?? 500, given.headers);
				given.pipe(answer);
			});
			passed.on('error', () => answer.destroy());
			asked.pipe(passed);
		});
		this.#server.on('upgrade', (asked, near, head) => this.#join(asked, near, head));
	}

	async listen(port: number): Promise<void> {
		this.#server.listen(port);
		await once(this.#server, 'listening');
	}

	/** Ends the sockets that are there and refuses new ones. */
	shutSockets(): void {
		this.#open = false;
		for (const socket of this.#sockets) socket.destroy();
	}

	openSockets(): void {
		this.#open = true;
	}

	async close(): Promise<void> {
		this.shutSockets();
		this.#server.close();
		this.#server.closeAllConnections();
		await once(this.#server, 'close');
	}

	#join(asked: IncomingMessage, near: Duplex, head: Buffer): void {
		if (!this.#open) return void near.destroy();
		const far = connect(this.#farPort, 'localhost');
		const ends = [near, far];
		for (const end of ends) {
			this.#sockets.add(end);
			end.on('error', () => {});
			end.on('close', () => {
				this.#sockets.delete(end);
				for (const each of ends) each.destroy();
			});
		}
		const lines = [`${asked.method} ${asked.url} HTTP/1.1`];
		for (let i = 0; i < asked.rawHeaders.length; i += 2)
			lines.push(`${asked.rawHeaders[i]}: ${asked.rawHeaders[i + 1]}`);
		far.write(`${lines.join('\r\n')}\r\n\r\n`);
		far.write(head);
		near.pipe(far);
		far.pipe(near);
	}
}
