/**
 * The process: listens, passes requests to the built app, stops cleanly. Everything stateful is inside the app and
 * comes over the bridge.
 */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { bridge } from '#server/bridge.ts';

type Handler = (request: IncomingMessage, response: ServerResponse, next: () => void) => void;

/** After this, answers still under way at a stop are cut. */
const graceMs = 10_000;
const samePressMs = 2_000;
/** Set by us on every request, so that forms over plain http are compared with the right address. */
const ownProtocolHeader = 'x-kithline-protocol';

/** The app's handler reads these when it is loaded. */
function tellHandler(env: NodeJS.ProcessEnv): void {
	env.BODY_SIZE_LIMIT ??= String(16 * 1024 * 1024);
	if (env.TRUST_PROXY === '1') {
		env.PROTOCOL_HEADER ??= 'x-forwarded-proto';
		env.HOST_HEADER ??= 'x-forwarded-host';
		env.ADDRESS_HEADER ??= 'x-forwarded-for';
	} else if (!env.ORIGIN) env.PROTOCOL_HEADER = ownProtocolHeader;
}

async function loadHandler(): Promise<Handler> {
	tellHandler(process.env);
	const { handler } = (await import(new URL('../build/handler.js', import.meta.url).href)) as {
		handler: Handler;
	};
	return handler;
}

function giveUp(problem: unknown): never {
	const error = problem as { name?: string; code?: string; message?: string };
	if (error.code === 'EADDRINUSE')
		console.error('The port is in use. Stop the other program, or start with PORT=another number.');
	else if (error.code === 'ERR_MODULE_NOT_FOUND')
		console.error('The app is not built yet. Run: npm run build');
	else if (error.name === 'ConfigProblem') console.error(error.message);
	else console.error(problem);
	process.exit(1);
}

async function run(): Promise<void> {
	const handler = await loadHandler();
	const app = bridge();
	if (!app) throw new Error('the built app did not start');
	let isStopping = false;
	/** Connections with no request under way: browsers open some ahead and keep them. */
	const quiet = new Set<Socket>();
	const server = createServer((request, response) => {
		const { socket } = request;
		quiet.delete(socket);
		response.on('close', () => {
			if (isStopping) socket.destroySoon();
			else if (!socket.destroyed) quiet.add(socket);
		});
		for (const [name, value] of Object.entries(app.headers)) response.setHeader(name, value);
		request.headers[ownProtocolHeader] = 'http';
		handler(request, response, () => response.writeHead(404).end());
	});
	server.on('connection', (socket) => {
		quiet.add(socket);
		socket.on('close', () => quiet.delete(socket));
	});
	server.on('upgrade', (request, socket, head) => {
		quiet.delete(request.socket);
		app.onUpgrade(request, socket, head);
	});
	server.on('error', giveUp);

	let stoppedAt = 0;
	const stop = () => {
		// One Ctrl-C may come twice: from the terminal and from npm. A later one means "now".
		if (isStopping && performance.now() - stoppedAt > samePressMs) process.exit(1);
		if (isStopping) return;
		isStopping = true;
		stoppedAt = performance.now();
		console.log('Stopping: finishing what is under way.');
		const answered = new Promise<void>((resolve) => server.close(() => resolve()));
		quiet.forEach((socket) => socket.destroy());
		setTimeout(() => server.closeAllConnections(), graceMs).unref();
		void app
			.close(() => answered)
			.then(() => process.exit(0))
			.catch(giveUp);
	};
	process.on('SIGINT', stop);
	process.on('SIGTERM', stop);

	server.listen(app.port, app.host ?? undefined, () => {
		const address = server.address();
		const port = typeof address === 'object' && address ? address.port : app.port;
		void app
			.greeting(port)
			.then((lines) => lines.forEach((line) => console.log(line)))
			.catch(giveUp);
	});
}

await run().catch(giveUp);
