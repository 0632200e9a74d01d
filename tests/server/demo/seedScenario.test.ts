import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { readConfig } from '#server/config.ts';
import { seedScenario } from '#server/demo/scenario/seedScenario.ts';
import { isOfficer } from '#server/auth/session.ts';
import { createApp } from '#server/http/app.ts';

const seedWithinMs = 60_000;

test(
	'seedScenario fills a folder that a server then opens: the three shown sign in, the others cannot',
	async () => {
		const folder = await mkdtemp(join(tmpdir(), 'kithline-seed-'));
		onTestFinished(() => rm(folder, { recursive: true }));
		const config = readConfig({ KITHLINE_DATA: folder, KITHLINE_DEMO: '1' });
		const now = Date.now();
		const shown = await seedScenario(config, new Date(now));
		const app = await createApp(config);
		onTestFinished(() => app.close());
		const demo = (await app.db.selectFrom('club').select('id').executeTakeFirstOrThrow()).id;
		const caller = { address: '127.0.0.1', browser: 'a browser' };
		const officers: boolean[] = [];
		for (const { name, signInName, password } of shown) {
			const { secret } = await app.accounts.signIn(signInName, password, caller);
			const session = await app.sessions.read(secret);
			expect(session?.clubs.map((seat) => [seat.club, seat.name])).toEqual([[demo, name]]);
			officers.push(isOfficer(session?.clubs[0] ?? null));
		}
		expect(officers).toEqual([true, false, false]);
		await expect(app.accounts.signIn('bram', '', caller)).rejects.toThrow();
		const { rows } = await app.health();
		expect(rows).toBeGreaterThanOrEqual(1_500);
		const last = await app.db.selectFrom('club').select('openedAt').executeTakeFirstOrThrow();
		expect(new Date(last.openedAt).getUTCFullYear()).toBe(new Date(now).getUTCFullYear() - 3);
	},
	seedWithinMs
);
