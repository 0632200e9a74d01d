import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { pathsBelow, readSource, root } from './sources.ts';
import { untidy } from './tidy.ts';

const topLevel = new Set([
	...['package.json', 'package-lock.json', 'tsconfig.json', 'svelte.config.js', 'vite.config.ts'],
	...['src', 'static', 'server', 'tests', 'README.md', 'DEVELOPERS.md']
]);
const ignored = new Set(
	readSource('.gitignore')
		.text.split('\n')
		.map((line) => line.replaceAll('/', ''))
);

test('the top level holds what it should and nothing else', () => {
	const names = readdirSync(root).filter((name) => !name.startsWith('.') && !ignored.has(name));
	expect(names.filter((name) => !topLevel.has(name))).toEqual([]);
	expect([...topLevel].filter((name) => !existsSync(join(root, name)))).toEqual([]);
});

test('no file is untidy', () => {
	const text = /\.(ts|js|svelte|css|md|json|html|sh|txt|svg|sql|yml|yaml)$|\/run$/;
	const paths = pathsBelow('.').filter((path) => text.test(path));
	expect(paths.length).toBeGreaterThan(10);
	expect(paths.map(readSource).flatMap(untidy)).toEqual([]);
});

const slash = '/';
test.each([
	['src/lib/a.ts', `const x = '${slash}root/files';`],
	['tests/a.ts', `readFileSync('${slash}home/ann/x')`],
	['package-lock.json', `"${'resolved'}": "https://example.org/x.tgz"`],
	['tests/a.test.ts', `test${'.'}skip('x')`],
	['tests/a.test.ts', `describe${'.'}only('x')`],
	['src/lib/records/utils.ts', ''],
	['src/lib/records/two-words.ts', ''],
	['src/lib/ui/bagCard.svelte', ''],
	['src/lib/records/a.ts', 'export default 3;'],
	['src/lib/records/a.ts', '\n'.repeat(401)]
])('%s with %j is untidy', (path, text) => expect(untidy({ path, text })).toHaveLength(1));

test.each([
	['src/lib/records/bagNumber.ts', 'export const x = 3;\n'],
	['src/lib/ui/BagCard.svelte', `<a href="/app/home/rooms">`],
	['src/routes/room/+page.svelte', ''],
	['src/hooks.server.ts', ''],
	['src/lib/ui/roomController.svelte.ts', '']
])('%s with %j is tidy', (path, text) => expect(untidy({ path, text })).toEqual([]));
