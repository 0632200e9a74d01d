import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { claimsOf } from './claims.ts';
import { pathsBelow, readSource, resolveImport, root } from './sources.ts';

const pages = ['README.md', 'DEVELOPERS.md', 'src/lib/records/SPEC.md', 'src/lib/genetics/README.md'];
const { scripts } = JSON.parse(readSource('package.json').text) as { scripts: Record<string, string> };

/** A star stands for any text; a folder counts. */
function exists(path: string): boolean {
	const file = (path.startsWith('#') ? resolveImport('README.md', path)! : path).replace(/^\.\//, '');
	if (!file.includes('*')) return existsSync(join(root, file));
	const pattern = file.split(/\*+/).map((part) => part.replace(/[.+[\]]/g, '\\$&'));
	const below = new RegExp(`^${pattern.join('.*')}`);
	return pathsBelow(file.slice(0, file.indexOf('*')).replace(/[^/]*$/, '')).some((known) =>
		below.test(known)
	);
}

describe.each(pages)('%s', (page) => {
	test('is there', () => expect(existsSync(join(root, page))).toBe(true));

	test('names paths and commands that exist', () => {
		const claims = claimsOf(readSource(page).text);
		expect(claims.paths.filter((path) => !exists(path))).toEqual([]);
		expect(claims.scripts.filter((script) => !Object.hasOwn(scripts, script))).toEqual([]);
	});
});

test('claims are found in spans, blocks and links, and what is no claim is not', () => {
	const page = [
		'Read `src/lib/x.ts`, [the rules](src/lib/records/SPEC.md#ranks) and `#records/entry.ts`; `npm start`.',
		'Data lives in `data/`, an id is `bag/bagged`, and `server/<name>.ts` is a pattern.',
		'```sh',
		'npm run -s bench -- ledger --json',
		'npm ci && npm test',
		'node server/main.ts',
		'```',
		'src/not/claimed.ts'
	].join('\n');
	expect(claimsOf(page)).toEqual({
		paths: ['src/lib/x.ts', '#records/entry.ts', 'server/main.ts', 'src/lib/records/SPEC.md'],
		scripts: ['bench', 'test', 'start']
	});
	expect(exists('src/lib/genetics/groups/*.ts')).toBe(true);
	expect(exists('#genetics/README.md')).toBe(true);
	expect(exists('src/lib/genetics/nowhere/*.ts')).toBe(false);
	expect(exists('src/lib/genetics/nowhere.ts')).toBe(false);
});
