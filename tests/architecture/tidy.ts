/** House rules about single files that a machine can check. */
import type { SourceFile } from './sources.ts';

/** Longer files are hard to hold in mind; one that must be longer says why in a line with these words. */
const maxLines = 400;
const reasonWhyLong = 'This file is long because';

/** Put together here from pieces, so that this file does not hold what it looks for. */
const forbidden: readonly (readonly [what: string, pattern: RegExp])[] = [
	[
		'a path of one machine',
		new RegExp(`(?<![\\w.~-])/(${['work', 'root', 'Users', 'home'].join('|')})/[\\w.]`)
	],
	['a path of one machine', new RegExp(`[A-Z]:\\\\${'Users'}`)],
	['a package registry', new RegExp(`\\b${['registry', '(npmjs|yarnpkg|npmmirror)'].join('\\.')}\\.`)],
	['a package registry', new RegExp(`"${'resolved'}": "(?!file:)`)]
];
const skipped = new RegExp(
	`\\b(test|it|describe|bench)\\.(${['skip', 'only', 'todo', 'skipIf'].join('|')})\\b`
);
const vague = /(^|\/)(utils?|helpers?|misc|common|types)\.(ts|svelte\.ts)$/;

/** Sentences on what is untidy in a file; empty when all is well. */
export function untidy({ path, text }: SourceFile): string[] {
	const found = forbidden.flatMap(([what, pattern]) => {
		const match = pattern.exec(text);
		return match ? [`${path} names ${what}: ${match[0]}`] : [];
	});
	const isProgram = /\.(ts|js|svelte|css)$/.test(path);
	const lines = text.split('\n').length - 1;
	if (isProgram && lines > maxLines && !text.includes(reasonWhyLong))
		found.push(
			`${path} has ${lines} lines, more than ${maxLines}: split it by idea, or say "${reasonWhyLong}"`
		);
	if (path.startsWith('tests/') && skipped.test(text))
		found.push(`${path} skips a test: mend it or delete it`);
	if (/^(src|server)\//.test(path)) {
		if (vague.test(path)) found.push(`${path} has a name that says nothing: name the thing`);
		if (!goodName(path))
			found.push(`${path} must be named like someThing.ts, SomeThing.svelte or some.svelte.ts`);
		if (/\.ts$/.test(path) && /^export default /m.test(text))
			found.push(`${path} must export by name, not by default`);
	}
	return found;
}

/** Modules begin small, components large; SvelteKit's own names are as it wants them. */
function goodName(path: string): boolean {
	const name = path.slice(path.lastIndexOf('/') + 1);
	if (/^\+/.test(name) || /^src\/[\w.]+$/.test(path)) return true;
	if (name.endsWith('.svelte')) return /^[A-Z][A-Za-z0-9]*\.svelte$/.test(name);
	if (name.endsWith('.ts')) return /^[a-z][A-Za-z0-9]*(\.svelte|\.server|\.d)?\.ts$/.test(name);
	return true;
}
