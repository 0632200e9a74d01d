/**
 * `npm run demo`: a club to look at, in a throw-away folder. Fills the folder first, closes it, then starts the server
 * over it in this same process; Ctrl-C stops the server and removes the folder.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ConfigProblem, readConfig } from '#server/config.ts';
import { seedDemo, type DemoAccount } from '#server/demo/seedDemo.ts';
import { createApp } from '#server/http/app.ts';

const threeYearsMs = 3 * 365 * 24 * 60 * 60_000;

async function fill(folder: string): Promise<readonly DemoAccount[]> {
	const app = await createApp(readConfig({ KITHLINE_DATA: folder }));
	try {
		return await seedDemo(app, Date.now() - threeYearsMs);
	} finally {
		await app.close();
	}
}

function tell(accounts: readonly DemoAccount[]): void {
	console.log('A demonstration with invented people. It is removed when it stops. Sign in as:');
	for (const { name, part, signInName, password } of accounts)
		console.log(`  ${name} (${part}): name "${signInName}", password "${password}"`);
}

const folder = mkdtempSync(join(tmpdir(), 'kithline-demo-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
try {
	// Says what is wrong with PORT and the like before anything is built up.
	readConfig();
	const accounts = await fill(folder);
	// The server reads its settings from the environment, as it always does.
	Object.assign(process.env, { KITHLINE_DATA: folder, KITHLINE_DEMO: '1' });
	await import('#server/main.ts');
	tell(accounts);
} catch (error) {
	console.error(error instanceof ConfigProblem ? error.message : error);
	process.exit(1);
}
