/**
 * How long a new device takes until it is usable, against the real server on loopback: in plain Node (fetch, check,
 * read, fold), and in Chromium with a slowed processor (until the lines are on the screen).
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, statSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { chromium, type CDPSession, type Page } from '@playwright/test';
import type { Manifest, VolumeRow } from '#protocol/messages.ts';
import { Fold } from '#records/fold.ts';
import { pathsBelow } from '#tests/architecture/sources.ts';
import { chromiumArgs, chromiumThere } from '#tests/helpers/findChromium.ts';
import { startServer } from '#tests/helpers/startServer.ts';
import type { FilledClub } from './ledgerClub.ts';

export interface DeviceFigures {
	readonly entries: number;
	readonly volumes: number;
	readonly volumeBytes: number;
	/** Plain Node on loopback: from asking for the manifest to the club state. */
	readonly node: {
		readonly usableMs: number;
		readonly fetchMs: number;
		readonly readMs: number;
		readonly foldMs: number;
	};
	/** Null where there is no Chromium. */
	readonly browser: BrowserFigures | null;
}
export interface BrowserFigures {
	readonly slowedTimes: number;
	/** The browser slows the page's own thread; whether it slowed the worker that folds as well. */
	readonly isWorkerSlowed: boolean;
	/** From opening the address, nothing kept, until a line is on the screen. */
	readonly firstUsableScreenMs: number;
	/** The same page again, with what the device keeps. */
	readonly secondOpeningMs: number;
	/** Longest time for which the page could not answer a finger. */
	readonly longestBlockedFrameMs: number;
	readonly pageHeapBytes: number;
	/** Null where the browser does not tell. */
	readonly workerHeapBytes: number | null;
}

const root = join(import.meta.dirname, '../..');
const port = 4396;
const address = `http://localhost:${port}`;
const slowedTimes = 4;
const patienceMs = 240_000;

export async function ledgerDevice(entries: number, tell: (step: string) => void): Promise<DeviceFigures> {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-bench-'));
	try {
		tell(`${entries} entries: filling a server`);
		const filled = fill(folder, entries);
		const server = await startServer({
			node: ['server/main.ts'],
			cwd: root,
			env: { PORT: String(port), KITHLINE_DATA: folder },
			readyUrl: `${address}/healthz`
		});
		try {
			tell(`${entries} entries: a new device in plain Node`);
			const node = await inNode(filled);
			const executablePath = chromiumThere();
			if (executablePath) tell(`${entries} entries: a new device in Chromium, ${slowedTimes} times slower`);
			const browser = executablePath ? await inBrowser(filled, executablePath) : null;
			const { volumes, volumeBytes } = filled;
			return { entries, volumes, volumeBytes, node, browser };
		} finally {
			await server.stop();
		}
	} finally {
		await rm(folder, { recursive: true, force: true });
	}
}

function fill(folder: string, entries: number): FilledClub {
	const made = spawnSync(
		process.execPath,
		[join(import.meta.dirname, 'ledgerClub.ts'), folder, String(entries)],
		{
			cwd: root,
			encoding: 'utf8',
			maxBuffer: 1 << 26
		}
	);
	const last = made.stdout.trim().split('\n').at(-1);
	if (made.status !== 0 || !last) throw new Error(`the club could not be filled:\n${made.stderr}`);
	return JSON.parse(last) as FilledClub;
}

async function inNode({ club, cookies }: FilledClub): Promise<DeviceFigures['node']> {
	const headers = { cookie: cookies.map(({ name, value }) => `${name}=${value}`).join('; ') };
	const get = async (path: string) => {
		const answer = await fetch(`${address}/api/clubs/${club}/${path}`, { headers });
		if (!answer.ok) throw new Error(`${path} was answered ${answer.status}`);
		return answer;
	};
	const start = performance.now();
	const manifest = (await (await get('manifest')).json()) as Manifest;
	const volumes = manifest.audiences.find((one) => one.audience === 'club')?.volumes ?? [];
	const contents: Buffer[] = [];
	for (const { digest } of volumes)
		contents.push(Buffer.from(await (await get(`volumes/${digest}`)).arrayBuffer()));
	const fetched = performance.now();
	const inputs = volumes.flatMap(({ digest }, i) => readVolume(contents[i] ?? Buffer.alloc(0), digest));
	const read = performance.now();
	const fold = new Fold();
	fold.add(inputs);
	const folded = performance.now();
	if (fold.state.lines.size === 0) throw new Error('the fold knows no line');
	return {
		usableMs: folded - start,
		fetchMs: fetched - start,
		readMs: read - fetched,
		foldMs: folded - read
	};
}

function readVolume(content: Buffer, digest: string) {
	const plain = content[0] === 0x1f && content[1] === 0x8b ? gunzipSync(content) : content;
	if (createHash('sha256').update(plain).digest('hex') !== digest)
		throw new Error('a volume arrived damaged');
	const rows = plain
		.toString()
		.split('\n')
		.filter(Boolean)
		.map((line) => JSON.parse(line) as VolumeRow);
	return rows.map(({ id, n, text, stamp }) => ({
		text,
		...(stamp === undefined ? {} : { stamp: { id, n, time: stamp } })
	}));
}

async function inBrowser({ club, cookies }: FilledClub, executablePath: string): Promise<BrowserFigures> {
	const browser = await chromium.launch({ executablePath, args: chromiumArgs });
	try {
		const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
		await context.addCookies(cookies.map((cookie) => ({ ...cookie, url: address, httpOnly: true })));
		await context.addInitScript(() => {
			const seen = { longest: 0 };
			Object.assign(globalThis, { benchSeen: seen });
			new PerformanceObserver((list) => {
				for (const entry of list.getEntries()) seen.longest = Math.max(seen.longest, entry.duration);
			}).observe({ type: 'longtask', buffered: true });
		});
		const page = await context.newPage();
		const session = await context.newCDPSession(page);
		await session.send('Emulation.setCPUThrottlingRate', { rate: slowedTimes });
		await session.send('Performance.enable');
		const workers = watchWorkers(session);
		await session.send('Target.setAutoAttach', {
			autoAttach: true,
			waitForDebuggerOnStart: false,
			flatten: false
		});
		const open = async () => {
			const start = performance.now();
			await page.goto(`${address}/c/${club}/lines`);
			await page.getByText('Line 1', { exact: true }).first().waitFor({ timeout: patienceMs });
			return performance.now() - start;
		};
		const firstUsableScreenMs = await open();
		const longestBlockedFrameMs = await longestBlocked(page);
		const { metrics } = await session.send('Performance.getMetrics');
		const pageHeapBytes = metrics.find((one) => one.name === 'JSHeapUsedSize')?.value ?? 0;
		const workerHeapBytes = await workers.heapBytes();
		return {
			slowedTimes,
			isWorkerSlowed: await workers.areSlowed(),
			firstUsableScreenMs,
			secondOpeningMs: await open(),
			longestBlockedFrameMs,
			pageHeapBytes,
			workerHeapBytes
		};
	} finally {
		await browser.close();
	}
}

function longestBlocked(page: Page): Promise<number> {
	return page.evaluate(() => (globalThis as unknown as { benchSeen: { longest: number } }).benchSeen.longest);
}

/** Slows and asks the page's dedicated workers, as far as the browser lets itself be asked. */
function watchWorkers(session: CDPSession) {
	const ids = new Set<string>();
	const answers = new Map<number, (answer: { result?: Record<string, number>; error?: unknown }) => void>();
	let asked = 0;
	const slowed: Promise<boolean>[] = [];
	const ask = (sessionId: string, method: string, params: object = {}) =>
		new Promise<{ result?: Record<string, number>; error?: unknown }>((resolve) => {
			asked += 1;
			answers.set(asked, resolve);
			const message = JSON.stringify({ id: asked, method, params });
			session
				.send('Target.sendMessageToTarget', { sessionId, message })
				.catch((error: unknown) => resolve({ error }));
			setTimeout(() => resolve({ error: 'no answer' }), 10_000).unref();
		});
	session.on('Target.receivedMessageFromTarget', ({ message }) => {
		const answer = JSON.parse(message) as { id?: number; result?: Record<string, number>; error?: unknown };
		if (answer.id !== undefined) answers.get(answer.id)?.(answer);
	});
	session.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => {
		if (targetInfo.type !== 'worker') return;
		ids.add(sessionId);
		const slow = ask(sessionId, 'Emulation.setCPUThrottlingRate', { rate: slowedTimes });
		slowed.push(slow.then(({ error }) => error === undefined));
	});
	return {
		async areSlowed() {
			const all = await Promise.all(slowed);
			return all.length > 0 && all.every(Boolean);
		},
		async heapBytes() {
			const used = await Promise.all([...ids].map((id) => ask(id, 'Runtime.getHeapUsage')));
			const known = used.flatMap(({ result }) => (result?.usedSize === undefined ? [] : [result.usedSize]));
			return known.length > 0 ? known.reduce((sum, one) => sum + one, 0) : null;
		}
	};
}

/** The app is measured as it is: built first when its build is older than its sources. */
export function buildIfOlder(): void {
	const built = join(root, 'build/handler.js');
	const sources = ['src', 'server'].flatMap(pathsBelow).map((path) => statSync(join(root, path)).mtimeMs);
	if (existsSync(built) && statSync(built).mtimeMs >= Math.max(...sources)) return;
	const done = spawnSync('npm', ['run', '-s', 'build'], {
		cwd: root,
		stdio: ['ignore', 'ignore', 'inherit']
	});
	if (done.status !== 0) throw new Error('the app could not be built');
}
