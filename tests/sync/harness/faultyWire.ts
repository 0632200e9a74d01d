/** A wire between pages and ledger that can hold the answers back and be cut, as a hall's network does. */
import { createServer, connect, type Server, type Socket } from 'node:net';
import { once } from 'node:events';

export class FaultyWire {
	readonly #server: Server;
	readonly #pairs = new Set<readonly [near: Socket, far: Socket]>();
	#holding = false;

	constructor(farPort: number) {
		this.#server = createServer((near) => {
			const far = connect(farPort, '127.0.0.1');
			const pair = [near, far] as const;
			this.#pairs.add(pair);
			near.pipe(far);
			far.pipe(near);
			if (this.#holding) hold(far, near);
			for (const end of pair) {
				end.on('error', () => {});
				end.on('close', () => {
					near.destroy();
					far.destroy();
					this.#pairs.delete(pair);
				});
			}
		});
	}

	async listen(port: number): Promise<void> {
		this.#server.listen(port, '127.0.0.1');
		await once(this.#server, 'listening');
	}

	/** What devices send arrives; what the server says does not. */
	holdAnswers(): void {
		this.#holding = true;
		for (const [near, far] of this.#pairs) hold(far, near);
	}

	/** Cuts every connection; later ones work again. */
	cut(): void {
		this.#holding = false;
		for (const [near, far] of this.#pairs) {
			near.destroy();
			far.destroy();
		}
	}

	async close(): Promise<void> {
		this.cut();
		this.#server.close();
		await once(this.#server, 'close');
	}
}

function hold(far: Socket, near: Socket): void {
	far.unpipe(near);
	// Taken from the server and thrown away, so that the server does not notice.
	far.resume();
}
