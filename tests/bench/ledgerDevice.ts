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
import type { Manifest, VolumeRow } from '#protocol/messages.ts';
import { Fold } from '#records/fold.ts';
import { pathsBelow } from '#tests/architecture/sources.ts';
import { chromiumThere } from '#tests/helpers/findChromium.ts';
import { startServer } from '#tests/helpers/startServer.ts';
import { inBrowser, type BrowserFigures } from './ledgerBrowser.ts';
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
	/** At full speed and slowed; empty where there is no Chromium. */
	readonly browser: readonly (BrowserFigures | { readonly problem: string })[];
}
const root = join(import.meta.dirname, '../..');
const port = 4396;
const address = `http://localhost:${port}`;
/** At full speed, and as slow as an old phone. */
const speeds = [1, 4];

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
			const browser: (BrowserFigures | { problem: string })[] = [];
			for (const slowedTimes of executablePath ? speeds : []) {
				tell(`${entries} entries: a new device in Chromium, ${slowedTimes} times as slow`);
				const asked = { executablePath: executablePath ?? '', address, slowedTimes };
				browser.push(await inBrowser(filled, asked).catch(problemOf));
			}
			const { volumes, volumeBytes } = filled;
			return { entries, volumes, volumeBytes, node, browser };
		} finally {
			await server.stop();
		}
	} finally {
		await rm(folder, { recursive: true, force: true });
	}
}

/** What went wrong in the browser is told beside the other figures, which stand. */
function problemOf(error: unknown): { problem: string } {
	return { problem: error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error) };
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
