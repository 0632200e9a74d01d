/** Starts a server as a child process and waits until it answers; stops it by its own id. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { until } from '#tests/helpers/until.ts';

export interface ServerStart {
	/** Arguments for Node: a file and what it is given. */
	readonly node: readonly string[];
	readonly env?: Readonly<Record<string, string>>;
	readonly cwd?: string;
	/** Answers 200 when the server is ready. */
	readonly readyUrl: string;
	readonly timeoutMs?: number;
}

export interface RunningServer {
	readonly process: ChildProcess;
	/** What it has printed so far. */
	output(): string;
	/** Ends it and waits until it has ended; `SIGKILL` for a crash. */
	stop(signal?: NodeJS.Signals): Promise<void>;
}

export async function startServer(start: ServerStart): Promise<RunningServer> {
	// The Node that runs the tests may be older than the server's: the project brings its own.
	const child = spawn('node', start.node, {
		cwd: start.cwd,
		env: {
			...process.env,
			PATH: `${import.meta.dirname}/../../node_modules/.bin:${process.env.PATH}`,
			...start.env
		},
		stdio: ['ignore', 'pipe', 'pipe']
	});
	let printed = '';
	for (const stream of [child.stdout, child.stderr]) {
		stream.on('data', (data: Buffer) => (printed += data.toString()));
	}
	const running: RunningServer = {
		process: child,
		output: () => printed,
		async stop(signal = 'SIGTERM') {
			if (child.exitCode !== null || child.signalCode !== null) return;
			child.kill(signal);
			await once(child, 'exit');
		}
	};
	const answers = async () => {
		if (child.exitCode !== null) throw new Error(`the server ended by itself:\n${printed}`);
		return fetch(start.readyUrl).then(
			(answer) => answer.ok,
			() => false
		);
	};
	try {
		await until(`${start.readyUrl} to answer`, answers, start.timeoutMs ?? 60_000);
	} catch (error) {
		await running.stop('SIGKILL');
		throw new Error(`${String(error)}\n${printed}`, { cause: error });
	}
	return running;
}
