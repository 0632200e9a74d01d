/** Runs every example of the genetics functions, so that none can promise what the code does not do. */
import { describe, expect, test } from 'vitest';
import ts from 'typescript';
import { pathsBelow, readSource } from './sources.ts';

const arrow = ' // => ';
const modules = pathsBelow('src/lib/genetics')
	.filter((path) => path.endsWith('.ts'))
	.map(readSource);
/** Files that say what data looks like, or hold what functions of their folder share: not called from outside. */
const internal = new Set(
	[
		'event.ts',
		'table.ts',
		'spawn.ts',
		'grow.ts',
		'rangeSearch.ts',
		'founderGenes.ts',
		'room.ts',
		'pedigree.ts'
	].map((name) => `/${name}`)
);
const isInternal = (path: string) => [...internal].some((name) => path.endsWith(name));

/** Lines of the `@example` blocks of a file, one list for each block. */
function examplesIn(text: string): string[][] {
	return [...text.matchAll(/\/\*\*[\s\S]*?\*\//g)].flatMap(([comment]) => {
		const lines = comment.split('\n').map((line) => line.replace(/^\s*\* ?/, '').replace(/^\/\*\*.*$/, ''));
		const start = lines.indexOf('@example');
		if (start < 0) return [];
		const rest = lines.slice(start + 1);
		const end = rest.findIndex((line) => line.startsWith('@') || line.startsWith('/'));
		return [rest.slice(0, end < 0 ? undefined : end).filter((line) => line.trim() !== '')];
	});
}

/** Runs a block line by line: each line either prepares something or has an arrow and a value. */
function runExample(
	lines: readonly string[],
	scope: Record<string, unknown>
): { call: string; got: unknown }[] {
	const program = lines.map((line, i) => {
		if (!line.includes(arrow)) return line;
		const [call, value] = line.split(arrow);
		return `results.push({ call: ${JSON.stringify(call)}, line: ${i}, got: (${call}), promised: (${value}) });`;
	});
	const results: { call: string; got: unknown; promised: unknown }[] = [];
	new Function('results', ...Object.keys(scope), program.join('\n'))(results, ...Object.values(scope));
	for (const { call, got, promised } of results) expect(got, call).toEqual(promised);
	return results;
}

const exported: Record<string, unknown> = {};
for (const { path } of modules) Object.assign(exported, await import(/* @vite-ignore */ `../../${path}`));

/** Names of the functions that a file exports. */
function exportedFunctions(text: string): string[] {
	const file = ts.createSourceFile('file.ts', text, ts.ScriptTarget.Latest, true);
	return file.statements.flatMap((statement) =>
		ts.isFunctionDeclaration(statement) &&
		statement.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)
			? [statement.name!.text]
			: []
	);
}

describe.each(modules.filter(({ path }) => !isInternal(path)))('$path', ({ path, text }) => {
	const name = path.replace(/^.*\//, '').replace('.ts', '');

	test('exports the function it is named after, documented with source and cost', () => {
		expect(exportedFunctions(text)).toContain(name);
		const comment = text.slice(0, text.indexOf(`export function ${name}`));
		const doc = comment.slice(comment.lastIndexOf('/**'));
		const places = ['Source: ', 'Cost: ', '@param ', '@returns ', '@example'].map((part) =>
			doc.indexOf(part)
		);
		expect(places).toEqual(places.toSorted((a, b) => a - b));
		expect(Math.min(...places)).toBeGreaterThan(0);
	});

	test('its examples give what they promise', () => {
		const examples = examplesIn(text);
		expect(examples.length).toBeGreaterThan(0);
		for (const lines of examples) expect(runExample(lines, exported).length).toBeGreaterThan(0);
	});
});

test('every function stands in the index', () => {
	const index = readSource('src/lib/genetics/README.md').text;
	for (const { path } of modules.filter(({ path }) => !isInternal(path)))
		expect(index).toContain(`\`${path.replace(/^.*\//, '').replace('.ts', '')}(`);
});

test('a wrong promise fails', () => {
	const text = '/**\n * Twice.\n * @example\n * const two = 2;\n * twice(two) // => 5\n */';
	expect(() => runExample(examplesIn(text)[0]!, { twice: (x: number) => 2 * x })).toThrow('twice(two)');
});
