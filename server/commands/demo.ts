/**
 * `npm run demo`: a club to look at, in a throw-away folder. Fills the folder first, closes it, then starts the server
 * over it in this same process; Ctrl-C stops the server and removes the folder.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ConfigProblem, readConfig } from '#server/config.ts';
import { seedScenario, type ShownAccount } from '#server/demo/scenario/seedScenario.ts';

function tell(accounts: readonly ShownAccount[]): void {
	console.log('A demonstration with invented people. It is removed when it stops. Sign in as:');
	for (const { name, part, signInName, password } of accounts)
		console.log(`  ${name} (${part}): name "${signInName}", password "${password}"`);
}

const folder = mkdtempSync(join(tmpdir(), 'kithline-demo-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
// Until the server takes Ctrl-C over: leaving the usual way removes the folder too.
const leave = () => process.exit(1);
process.once('SIGINT', leave).once('SIGTERM', leave);
try {
	// Says what is wrong with PORT and the like before anything is built up.
	readConfig();
	console.log('Filling a throw-away folder with three years of an invented club.');
	const accounts = await seedScenario(readConfig({ KITHLINE_DATA: folder }), new Date());
	// The server reads its settings from the environment, as it always does.
	Object.assign(process.env, { KITHLINE_DATA: folder, KITHLINE_DEMO: '1' });
	await import('#server/main.ts');
	process.off('SIGINT', leave).off('SIGTERM', leave);
	tell(accounts);
} catch (error) {
	console.error(error instanceof ConfigProblem ? error.message : error);
	process.exit(1);
}
