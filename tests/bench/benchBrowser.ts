/** A bench in Chromium: the same measuring module, bundled, in a module worker of a page of its own. */
import { readFileSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { build } from 'vite';
import { chromiumArgs } from '#tests/helpers/findChromium.ts';
import type { Measured } from './geneticsMeasure.ts';
import type { Told } from './geneticsWorker.ts';

export interface TaskInBrowser {
	readonly on: string;
	readonly measured: readonly Measured[];
	/** Memory of the page's process before, and the most it had; null where the system does not tell. */
	readonly bytesBefore: number | null;
	readonly bytesMost: number | null;
	/** Why nothing could be measured. */
	readonly problem: string | null;
}

const patienceMs = 180_000;
/** A page that is isolated has clocks of 5 microseconds; others have 100. */
const headers = {
	'cross-origin-opener-policy': 'same-origin',
	'cross-origin-embedder-policy': 'require-corp',
	'cross-origin-resource-policy': 'same-origin'
};

/**
 * Bundles and serves the worker, gives the way to run a task, and ends it all.
 *
 * @param entry the worker's file in this folder; it speaks as `Told` says
 */
export async function withBrowser<T>(
	executablePath: string,
	use: (run: (task: string) => Promise<TaskInBrowser>) => Promise<T>,
	entry = 'geneticsWorker.ts'
): Promise<T> {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-bench-'));
	await build({
		...{ configFile: false, logLevel: 'error', root: join(import.meta.dirname, '../..'), publicDir: false },
		build: {
			...{ outDir: folder, emptyOutDir: true, target: 'esnext', minify: true },
			lib: {
				entry: join(import.meta.dirname, entry),
				formats: ['es'],
				fileName: () => 'worker.js'
			}
		}
	});
	const files = new Set(await readdir(folder));
	const server = createServer((request, response) => {
		const file = request.url?.slice(1) ?? '';
		if (!files.has(file)) {
			response
				.writeHead(200, { ...headers, 'content-type': 'text/html' })
				.end('<!doctype html><title>Bench</title>');
			return;
		}
		void readFile(join(folder, file)).then((script) =>
			response.writeHead(200, { ...headers, 'content-type': 'text/javascript' }).end(script)
		);
	});
	await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
	try {
		const { port } = server.address() as AddressInfo;
		return await use((task) => inNewBrowser(executablePath, `http://127.0.0.1:${port}`, task));
	} finally {
		server.close();
		server.closeAllConnections();
		await rm(folder, { recursive: true, force: true });
	}
}

/** A browser for each task: its memory is its own. */
async function inNewBrowser(executablePath: string, address: string, task: string): Promise<TaskInBrowser> {
	const browser = await chromium.launch({ executablePath, args: chromiumArgs });
	try {
		const page = await browser.newPage();
		const session = await browser.newBrowserCDPSession();
		const memory = async () => {
			const { processInfo } = await session.send('SystemInfo.getProcessInfo');
			return memoryOf(processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id));
		};
		await page.goto(address);
		await page.evaluate(() => {
			const worker = new Worker('/worker.js', { type: 'module' });
			const tell = (text: string) =>
				new Promise<unknown>((resolve) => {
					worker.onmessage = ({ data }) => resolve(data);
					worker.onerror = ({ message }) => resolve({ problem: message || 'the worker ended' });
					worker.postMessage(text);
				});
			Object.assign(globalThis, { tell });
		});
		const tell = (text: string): Promise<Told> => {
			const told = page.evaluate(
				(given) => (globalThis as unknown as { tell(text: string): Promise<unknown> }).tell(given),
				text
			) as Promise<Told>;
			const crashed = new Promise<Told>((resolve) =>
				page.once('crash', () => resolve({ problem: 'the page ran out of memory' }))
			);
			const late = new Promise<Told>((resolve) =>
				setTimeout(resolve, patienceMs, { problem: `no answer in ${patienceMs / 1_000} s` }).unref()
			);
			return Promise.race([told, crashed, late]);
		};
		const ready = await tell(task);
		const before = await memory();
		const answer = 'problem' in ready ? ready : await tell('go');
		const most = await memory();
		return {
			on: 'ready' in ready ? ready.ready : '',
			measured: 'measured' in answer ? answer.measured : [],
			...{ bytesBefore: before?.now ?? null, bytesMost: most?.most ?? null },
			problem: 'problem' in answer ? answer.problem : null
		};
	} finally {
		await browser.close();
	}
}

/** Memory of the largest of these processes, as Linux tells it. */
function memoryOf(ids: readonly number[]): { now: number; most: number } | null {
	if (process.platform !== 'linux') return null;
	const told = ids.flatMap((id) => {
		try {
			const status = readFileSync(`/proc/${id}/status`, 'utf8');
			const bytes = (name: string) => Number(new RegExp(`${name}:\\s+(\\d+) kB`).exec(status)?.[1]) * 1024;
			return [{ now: bytes('VmRSS'), most: bytes('VmHWM') }];
		} catch {
			// It has ended since.
			return [];
		}
	});
	return told.sort((a, b) => b.most - a.most)[0] ?? null;
}
