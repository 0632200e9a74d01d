/** The built app, made when it is missing or older than its sources: the process under test is the real one. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

export const root = join(import.meta.dirname, '../../..');

function newest(path: string): number {
	if (!statSync(path).isDirectory()) return statSync(path).mtimeMs;
	return Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))));
}

export function ensureBuilt(): void {
	const built = join(root, 'build/handler.js');
	const sources = ['src', 'server', 'static', 'package.json', 'svelte.config.js', 'vite.config.ts'];
	const changed = Math.max(
		...sources
			.map((path) => join(root, path))
			.filter(existsSync)
			.map(newest)
	);
	if (existsSync(built) && statSync(built).mtimeMs > changed) return;
	execFileSync('npm', ['run', '-s', 'build', '--', '--logLevel', 'error'], {
		cwd: root,
		stdio: ['ignore', 'ignore', 'pipe']
	});
}
