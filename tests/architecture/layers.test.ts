import { expect, test } from 'vitest';
import { layerOf, layers, layerViolations } from './layers.ts';
import { programSources } from './sources.ts';

test('every file imports only what its layer may import', () => {
	const sources = programSources();
	expect(sources.length).toBeGreaterThan(0);
	expect(layerViolations(sources)).toEqual([]);
});

test('every arrow of the table leads to a line of the table', () => {
	for (const { layers: allowed } of Object.values(layers))
		for (const layer of allowed) expect(layers).toHaveProperty([layer]);
});

test('no layer of the library may import the server', () => {
	for (const [name, { layers: allowed }] of Object.entries(layers))
		if (!['routes on the server', 'app types', 'server'].includes(name))
			expect(allowed).not.toContain('server');
});

test.each([
	['src/lib/genetics/a/b.ts', `import { x } from '#records/entry.ts';`, 'genetics', '#records/entry.ts'],
	['src/lib/genetics/a/b.ts', `import type { X } from '../../club/x.ts';`, 'genetics', '../../club/x.ts'],
	['src/lib/genetics/b.ts', `const x = await import('zod');`, 'genetics', 'zod'],
	['src/lib/genetics/b.ts', `let x: import('#club/x.ts').X;`, 'genetics', '#club/x.ts'],
	['src/lib/records/b.ts', `export { x } from '#server/x.ts';`, 'records', '#server/x.ts'],
	['src/lib/records/b.ts', `import fs from 'node:fs';`, 'records', 'node:fs'],
	['src/lib/sync/b.ts', `import { onMount } from 'svelte';`, 'sync', 'svelte'],
	['src/lib/sync/b.ts', `import { browser } from '$app/environment';`, 'sync', '$app/environment'],
	[
		'src/lib/sync/b.ts',
		`new Worker(new URL('../workers/x.ts', import.meta.url));`,
		'sync',
		'../workers/x.ts'
	],
	['src/lib/workers/b.ts', `import x from '../ui/x.svelte';`, 'workers', '../ui/x.svelte'],
	['src/lib/workers/b.ts', `import x from './x.svelte.ts';`, 'workers', './x.svelte.ts'],
	['src/lib/ui/b.ts', `import x from '$lib/records/entry.ts';`, 'ui', '$lib/records/entry.ts'],
	['src/lib/ui/b.ts', `import x from 'kysely';`, 'ui', 'kysely'],
	['src/lib/ui/shared/b.ts', `import x from '../bags/x.ts';`, 'ui/shared', '../bags/x.ts'],
	['src/lib/ui/x.ts', `import x from '#nowhere/x.ts';`, 'ui', '#nowhere/x.ts'],
	['src/routes/+page.svelte', `<script lang="ts">import '#server/x.ts';</script>`, 'routes', '#server/x.ts'],
	['src/routes/+page.ts', `import '../../tests/x.ts';`, 'routes', '../../tests/x.ts'],
	['server/x.ts', `import '#sync/x.ts';`, 'server', '#sync/x.ts'],
	['server/x.ts', `import '../src/routes/x.ts';`, 'server', '../src/routes/x.ts']
])('%s: %s is a violation', (path, text, layer, specifier) => {
	expect(layerViolations([{ path, text }])).toEqual([`${path} (${layer}) must not import ${specifier}`]);
});

test.each([
	['src/lib/genetics/a/b.ts', `import { x } from '../x.ts';`],
	['src/lib/records/b.ts', `import * as z from 'zod/mini';`],
	['src/routes/room/+page.svelte', `<script>import x from '#ui/x.svelte'; import './$types';</script>`],
	['src/routes/api/+server.ts', `import '#server/x.ts'; import 'node:fs'; import '@sveltejs/kit';`],
	['src/hooks.server.ts', `import '#server/x.ts';`],
	['server/x.ts', `import '#records/x.ts'; import 'ws'; import 'node:http';`]
])('%s: %s is allowed', (path, text) => expect(layerViolations([{ path, text }])).toEqual([]));

test.each(['src/lib/misc/x.ts', 'src/lib/x.ts', 'src/things/x.ts', 'src/x.ts', 'src/lib/toString/x.ts'])(
	'%s is in no known layer',
	(path) => {
		expect(layerOf(path)).toBeUndefined();
		expect(layerViolations([{ path, text: '' }])).toHaveLength(1);
	}
);
