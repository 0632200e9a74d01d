import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { connect } from 'node:net';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import { reasons } from '#protocol/reasons.ts';
import { until } from '#tests/helpers/until.ts';
import { ensureBuilt, root } from './built.ts';
import { emptyFolder, path, start } from './startProcess.ts';

beforeAll(ensureBuilt, 180_000);

describe('the server’s process', () => {
	test('on an empty folder prints a link, with which the first officer opens the club; the next start prints none', async () => {
		const KITHLINE_DATA = await emptyFolder();
		const server = await start('server/main.ts', { KITHLINE_DATA });
		await until('the link', () => /first-officer\/\S+/.test(server.printed()));
		const link = /http\S+first-officer\/\S+/.exec(server.printed())![0];
		const page = await fetch(link);
		expect(page.status).toBe(200);
		expect(await page.text()).toContain('Open your club’s record');
		const body = new URLSearchParams({
			...{ club: 'Tern Bay', region: 'North', timeZone: 'Europe/London', name: 'Wren', room: '' },
			...{ signInName: 'wren', password: 'three wet herons' }
		});
		const post = () =>
			fetch(link, {
				method: 'POST',
				body,
				redirect: 'manual',
				headers: { origin: server.address, accept: 'text/html' }
			});
		const opened = await post();
		expect(opened.status).toBe(303);
		expect(opened.headers.get('location')).toMatch(/^\/c\//);
		const cookie = opened.headers
			.getSetCookie()
			.map((line) => line.split(';')[0])
			.join('; ');
		const me = await fetch(`${server.address}/api/me`, { headers: { cookie } });
		expect(await me.json()).toMatchObject({
			clubs: [{ clubName: 'Tern Bay', name: 'Wren' }],
			offlineWorks: true
		});
		expect((await post()).status).toBe(400);
		expect(await server.stop('SIGTERM')).toBe(0);

		const again = await start('server/main.ts', { KITHLINE_DATA });
		expect(await (await fetch(`${again.address}/api/me`, { headers: { cookie } })).json()).toHaveProperty(
			'clubs'
		);
		expect(again.printed()).not.toContain('first-officer');
		expect(again.printed()).not.toMatch(/wren|heron/i);
		expect(await again.stop('SIGINT')).toBe(0);
	}, 120_000);

	test('answers /healthz from the start, protects every answer, and stops with 0 while browsers hold connections', async () => {
		const server = await start('server/main.ts', { KITHLINE_DATA: await emptyFolder() });
		const health = await fetch(`${server.address}/healthz`);
		expect(health.status).toBe(200);
		expect(await health.json()).toEqual({
			ok: true,
			version: '0.1.0',
			rows: 0,
			uptimeSeconds: expect.any(Number) as number
		});
		for (const page of ['/', '/sign-in', '/healthz', '/shell', '/manifest.webmanifest']) {
			const { headers } = await fetch(server.address + page);
			expect(headers.get('x-content-type-options'), page).toBe('nosniff');
			expect(headers.get('x-frame-options'), page).toBe('DENY');
			expect(headers.get('referrer-policy'), page).toBe('same-origin');
		}
		const policy = (await fetch(server.address)).headers.get('content-security-policy') ?? '';
		expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval' 'nonce-");
		expect(policy).toContain(`connect-src 'self' ${server.address.replace('http', 'ws')}`);

		const { hostname, port } = new URL(server.address);
		const idle = connect(Number(port), hostname);
		await once(idle, 'connect');
		idle.on('error', () => {});
		const socket = new WebSocket(
			`${server.address.replace('http', 'ws')}/sync/no-club/no-document?protocol=1`
		);
		const [code] = (await once(socket, 'close')) as [number];
		expect(code).toBe(reasons.signedOut.code);
		expect(await server.stop('SIGTERM')).toBe(0);
		idle.destroy();
	}, 60_000);

	test('refuses posts of another site’s page, and says nothing to somebody signed out', async () => {
		const server = await start('server/main.ts', { KITHLINE_DATA: await emptyFolder() });
		const post = (origin: string, type: string) =>
			fetch(`${server.address}/api/clubs/any/erase`, {
				method: 'POST',
				body: '{"ids":["x"]}',
				headers: { origin, 'content-type': type }
			});
		expect((await post('https://evil.example', 'application/json')).status).toBe(403);
		expect((await post('https://evil.example', 'text/plain')).status).toBe(403);
		expect((await post(server.address, 'application/json')).status).toBe(401);
		const out = [
			'/api/me',
			'/api/clubs/any/manifest',
			'/api/clubs/any/volumes/0',
			'/api/clubs/any/contacts/0'
		];
		for (const path of out) expect((await fetch(server.address + path)).status, path).toBe(401);
		await server.stop('SIGTERM');
	}, 60_000);

	test('says in one sentence when the port is in use or a setting cannot be used, and ends with 1', async () => {
		const KITHLINE_DATA = await emptyFolder();
		const server = await start('server/main.ts', { KITHLINE_DATA });
		const PORT = new URL(server.address).port;
		const run = (env: Record<string, string>) =>
			spawnSync('node', ['server/main.ts'], {
				cwd: root,
				encoding: 'utf8',
				env: { ...process.env, PATH: path, ...env }
			});
		const taken = run({ KITHLINE_DATA: await emptyFolder(), PORT });
		expect([taken.status, taken.stderr]).toEqual([
			1,
			expect.stringMatching(/^The port is in use\..*\n$/) as string
		]);
		const wrong = run({ KITHLINE_DATA, PORT: 'abc' });
		expect([wrong.status, wrong.stderr]).toEqual([1, expect.stringMatching(/^PORT must be .*\n$/) as string]);
		await server.stop('SIGTERM');
	}, 60_000);
});

test('the demo prints three accounts that can sign in, and removes its folder when it stops', async () => {
	const TMPDIR = await emptyFolder();
	const server = await start('server/commands/demo.ts', { TMPDIR });
	await until('the accounts', () => (server.printed().match(/password "/g) ?? []).length === 3);
	for (const [, signInName, password] of server.printed().matchAll(/name "(.+?)", password "(.+?)"/g)) {
		const answer = await fetch(`${server.address}/sign-in`, {
			method: 'POST',
			body: new URLSearchParams({ signInName: signInName!, password: password! }),
			headers: { origin: server.address, accept: 'text/html' },
			redirect: 'manual'
		});
		expect(answer.status, signInName).toBe(303);
	}
	expect(await readdir(TMPDIR)).toHaveLength(1);
	expect(await server.stop('SIGINT')).toBe(0);
	expect(await readdir(TMPDIR)).toEqual([]);
}, 180_000);

describe('npm run admin', () => {
	const admin = (KITHLINE_DATA: string, ...args: string[]) =>
		spawnSync('node', ['server/commands/admin.ts', ...args], {
			cwd: root,
			encoding: 'utf8',
			env: { ...process.env, PATH: path, KITHLINE_DATA }
		});

	test('backs up while the server runs; restores only when it is stopped, with a new edition and later bag numbers', async () => {
		const TMPDIR = await emptyFolder();
		const demo = await start('server/commands/demo.ts', { TMPDIR });
		await until('the accounts', () => /password "/.test(demo.printed()));
		const [, signInName = '', password = ''] = /name "(.+?)", password "(.+?)"/.exec(demo.printed()) ?? [];
		const signIn = async (address: string) => {
			const body = new URLSearchParams({ signInName, password });
			const answer = await fetch(`${address}/sign-in`, {
				method: 'POST',
				body,
				headers: { origin: address, accept: 'text/html' },
				redirect: 'manual'
			});
			return answer.headers
				.getSetCookie()
				.map((line) => line.split(';')[0])
				.join('; ');
		};
		const ask = async (address: string, cookie: string) => {
			const club = (
				(await (await fetch(`${address}/api/me`, { headers: { cookie } })).json()) as {
					clubs: { club: string }[];
				}
			).clubs[0]!.club;
			const manifest = await fetch(`${address}/api/clubs/${club}/manifest`, { headers: { cookie } });
			const { edition } = (await manifest.json()) as { edition: string };
			const numbers = await fetch(`${address}/api/clubs/${club}/numbers`, {
				method: 'POST',
				body: JSON.stringify({ request: address, blocks: 1 }),
				headers: { cookie, 'content-type': 'application/json' }
			});
			return {
				edition,
				block: ((await numbers.json()) as { blocks: { first: number; last: number }[] }).blocks[0]!
			};
		};
		const data = join(TMPDIR, (await readdir(TMPDIR))[0]!);
		const file = join(await emptyFolder(), 'backup.sqlite');
		expect(admin(data, 'backup', file).status).toBe(0);
		expect(admin(data, 'backup', file).stderr).toMatch(/is there already/);
		expect(admin(data, 'restore', file).stderr).toMatch(/The server is running on this folder/);
		const cookie = await signIn(demo.address);
		const before = await ask(demo.address, cookie);
		await demo.stop('SIGINT');

		const KITHLINE_DATA = await emptyFolder();
		expect(admin(KITHLINE_DATA, 'restore', file).status).toBe(0);
		const server = await start('server/main.ts', { KITHLINE_DATA });
		expect((await fetch(`${server.address}/api/me`, { headers: { cookie } })).status).toBe(401);
		const after = await ask(server.address, await signIn(server.address));
		expect(after.edition).not.toBe(before.edition);
		expect(after.block.first).toBeGreaterThan(before.block.last);
		await server.stop('SIGTERM');

		// Over what is there: set aside, not lost.
		expect(admin(KITHLINE_DATA, 'restore', file).status).toBe(0);
		expect((await readdir(KITHLINE_DATA)).some((name) => name.includes('.before-'))).toBe(true);
		const made = admin(KITHLINE_DATA, 'link', 'sign-in', signInName.toUpperCase());
		expect(made.stdout).toMatch(/\/sign-in-link\/\S+\ncode \d{4} \d{4} \d{4}\n$/);
	}, 180_000);

	test('refuses what is no backup and changes nothing; other words get the usage', async () => {
		const folder = await emptyFolder();
		const wrong = admin(folder, 'restore', join(root, 'package.json'));
		expect([wrong.status, wrong.stderr]).toEqual([
			1,
			expect.stringMatching(/is not a whole Kithline backup/) as string
		]);
		expect(existsSync(join(folder, 'kithline.sqlite'))).toBe(false);
		expect(admin(folder, 'dance').stderr).toMatch(/^npm run admin -- backup FILE/);
	}, 30_000);
});
