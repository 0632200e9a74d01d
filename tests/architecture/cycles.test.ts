import { expect, test } from 'vitest';
import { importCycles } from './cycles.ts';
import { programSources } from './sources.ts';

test('no files import each other in a circle', () => {
	expect(importCycles(programSources())).toEqual([]);
});

test('a circle through a component, an alias and a type is found', () => {
	const sources = [
		{ path: 'src/lib/ui/a.svelte', text: `<script lang="ts">import '#ui/b.ts';</script>` },
		{ path: 'src/lib/ui/b.ts', text: `import type { C } from './c.ts';` },
		{ path: 'src/lib/ui/c.ts', text: `export const load = () => import('./a.svelte');` },
		{ path: 'src/lib/ui/d.ts', text: `import './a.svelte';` }
	];
	expect(importCycles(sources).map((cycle) => cycle.toSorted())).toEqual([
		['src/lib/ui/a.svelte', 'src/lib/ui/b.ts', 'src/lib/ui/c.ts']
	]);
	expect(importCycles([{ path: 'src/x.ts', text: `import './x.ts';` }])).toEqual([['src/x.ts']]);
	expect(importCycles(sources.slice(1))).toEqual([]);
});
