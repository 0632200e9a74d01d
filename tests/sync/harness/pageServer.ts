/**
 * Builds the harness page into a folder of its own and serves it; `/api` and `/sync` go on to the ledger server, which
 * may come and go.
 *
 * Run: node pageServer.ts PORT LEDGER_PORT FOLDER
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { build, preview } from 'vite';

const [port, ledgerPort, folder] = process.argv.slice(2) as [string, string, string];
const root = import.meta.dirname;
const target = `http://127.0.0.1:${ledgerPort}`;

// The project's tsconfig extends one that SvelteKit writes; in a fresh clone it is not there yet.
const project = join(root, '../../..');
if (!existsSync(join(project, '.svelte-kit/tsconfig.json'))) {
	spawnSync('node', ['node_modules/@sveltejs/kit/svelte-kit.js', 'sync'], { cwd: project, stdio: 'inherit' });
}

await build({
	root,
	configFile: false,
	logLevel: 'warn',
	worker: { format: 'es' },
	build: { outDir: folder, emptyOutDir: true, target: 'es2022', minify: false }
});
await preview({
	root,
	configFile: false,
	logLevel: 'warn',
	build: { outDir: folder },
	preview: {
		port: Number(port),
		strictPort: true,
		host: '127.0.0.1',
		proxy: { '/api': { target }, '/sync': { target, ws: true } }
	}
});
