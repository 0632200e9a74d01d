/** Reads the project's files and what they import, for the tests of this folder. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

export interface SourceFile {
	/** From the top of the project, with forward slashes. */
	readonly path: string;
	readonly text: string;
}

export interface Import {
	readonly specifier: string;
	/** File in the project, or undefined for a package. */
	readonly file: string | undefined;
	/** Only types: gone when the program runs. */
	readonly typeOnly: boolean;
}

/** Folders that are made by tools or hold a person's data: the plain names of .gitignore. */
const ignored = new Set([
	'.git',
	...readFileSync(join(root, '.gitignore'), 'utf8')
		.split('\n')
		.map((line) => line.trim().replaceAll('/', ''))
		.filter((line) => line && !line.includes('*'))
]);

/** Paths of all files below a folder of the project. */
export function pathsBelow(folder: string): string[] {
	if (!existsSync(join(root, folder))) return [];
	return readdirSync(join(root, folder), { withFileTypes: true })
		.filter(({ name }) => !ignored.has(name))
		.flatMap((entry) => {
			const path = posix.join(folder, entry.name);
			return entry.isDirectory() ? pathsBelow(path) : [path];
		});
}

export function readSource(path: string): SourceFile {
	return { path, text: readFileSync(join(root, path), 'utf8') };
}

/** All program text of the app and the server. */
export function programSources(): SourceFile[] {
	return ['src', 'server']
		.flatMap(pathsBelow)
		.filter((path) => /\.(ts|js|svelte)$/.test(path))
		.map(readSource);
}

/** Everything that a file imports, exports from, loads later, or names as a worker. */
export function importsOf(source: SourceFile): Import[] {
	const imports: Import[] = [];
	const add = (node: ts.Node | undefined, typeOnly: boolean) => {
		if (!node || !ts.isStringLiteralLike(node)) return;
		imports.push({ specifier: node.text, file: resolveImport(source.path, node.text), typeOnly });
	};
	const visit = (node: ts.Node) => {
		if (ts.isImportDeclaration(node)) add(node.moduleSpecifier, isTypeOnly(node.importClause));
		else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly);
		else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument))
			add(node.argument.literal, true);
		else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword)
			add(node.arguments[0], false);
		else if (ts.isNewExpression(node) && node.expression.getText() === 'URL') {
			if (node.arguments?.[1]?.getText() === 'import.meta.url') add(node.arguments[0], false);
		}
		ts.forEachChild(node, visit);
	};
	for (const text of scriptsOf(source))
		visit(ts.createSourceFile('file.ts', text, ts.ScriptTarget.Latest, true));
	return imports;
}

function isTypeOnly(clause: ts.ImportClause | undefined): boolean {
	if (!clause) return false;
	if (clause.isTypeOnly) return true;
	const named = clause.namedBindings;
	if (clause.name || !named || !ts.isNamedImports(named) || named.elements.length === 0) return false;
	return named.elements.every((element) => element.isTypeOnly);
}

function scriptsOf({ path, text }: SourceFile): string[] {
	if (!path.endsWith('.svelte')) return [text];
	return [...text.matchAll(/<script\b[^>]*>([\s\S]*?)<\/script>/g)].map((match) => match[1]!);
}

const aliases = Object.entries(
	(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { imports: Record<string, string> })
		.imports
).map(([alias, target]) => [alias.replace('*', ''), target.replace('./', '').replace('*', '')] as const);

/** File that a specifier names, without asking whether it exists; undefined for a package. */
export function resolveImport(from: string, specifier: string): string | undefined {
	const plain = specifier.replace(/\?.*$/, '');
	if (plain.startsWith('.')) return posix.join(posix.dirname(from), plain);
	for (const [alias, target] of aliases)
		if (plain.startsWith(alias)) return target + plain.slice(alias.length);
	return undefined;
}
