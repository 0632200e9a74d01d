/** The real process, on a free port and in a folder of its own, gone when the test has ended. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { until } from '#tests/helpers/until.ts';
import { root } from './built.ts';

export const path = `${root}/node_modules/.bin:${process.env.PATH}`;

export async function emptyFolder(): Promise<string> {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-process-'));
	onTestFinished(() => rm(folder, { recursive: true, force: true }));
	return folder;
}

/** Starts a command of the server on a free port and waits until it says so. */
export async function start(file: string, env: Record<string, string>) {
	const child = spawn('node', [file], { cwd: root, env: { ...process.env, PATH: path, PORT: '0', ...env } });
	let printed = '';
	for (const stream of [child.stdout, child.stderr])
		stream.on('data', (data: Buffer) => (printed += data.toString()));
	onTestFinished(() => void child.kill('SIGKILL'));
	await until(
		'"ready at"',
		() => {
			if (child.exitCode !== null) throw new Error(`ended by itself: ${printed}`);
			return /ready at http\S+/.test(printed);
		},
		60_000
	);
	const address = /ready at (http\S+)/.exec(printed)![1]!;
	return {
		address,
		child,
		printed: () => printed,
		async stop(signal: NodeJS.Signals): Promise<number | null> {
			const gone = once(child, 'exit');
			child.kill(signal);
			return (await gone)[0] as number | null;
		}
	};
}

/** Signs in with the nth account that the demo printed; gives the Cookie header. */
export async function signInToDemo(address: string, printed: string, nth = 0): Promise<string> {
	const [, signInName = '', password = ''] =
		[...printed.matchAll(/name "(.+?)", password "(.+?)"/g)][nth] ?? [];
	const body = new URLSearchParams({ signInName, password });
	const headers = { origin: address, accept: 'text/html' };
	const answer = await fetch(`${address}/sign-in`, { method: 'POST', body, headers, redirect: 'manual' });
	return answer.headers
		.getSetCookie()
		.map((line) => line.split(';')[0])
		.join('; ');
}
