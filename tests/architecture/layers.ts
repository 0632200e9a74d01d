/** Which part of the house may import which: the table of DEVELOPERS.md, and the packages each may use. */
import { importsOf, type SourceFile } from './sources.ts';

interface Layer {
	/** Layers it may import, besides itself. */
	readonly layers: readonly string[];
	/** Packages it may import. `kit`: svelte and what SvelteKit makes. `any`: all that is not told apart below. */
	readonly packages: readonly string[];
}

const lib = [
	...['records', 'club', 'genetics', 'planning', 'pedigree', 'season', 'protocol', 'sync', 'handover'],
	...['workers', 'ui', 'ui/shared']
];
const syncPackages = ['yjs', 'y-websocket', 'y-indexeddb', 'y-protocols', 'lib0', 'idb', 'uuid'];
/** What runs in a browser must not pull these in. */
const serverPackages = ['node:', 'lucia', 'kysely', 'ws', 'pg', '@node-rs/argon2'];

export const layers: Readonly<Record<string, Layer>> = {
	records: { layers: [], packages: ['zod', 'uuid', 'edtf', 'temporal-polyfill'] },
	club: { layers: ['records', 'pedigree', 'genetics'], packages: [] },
	genetics: { layers: [], packages: [] },
	planning: {
		layers: ['genetics'],
		packages: ['highs', 'munkres', '@stdlib/stats-base-dists-beta-quantile']
	},
	pedigree: { layers: ['records', 'club', 'genetics'], packages: [] },
	season: { layers: ['records', 'club', 'genetics', 'planning', 'pedigree'], packages: [] },
	protocol: { layers: [], packages: [] },
	sync: { layers: ['records', 'protocol'], packages: syncPackages },
	handover: { layers: ['records', 'protocol'], packages: ['qrcode'] },
	workers: {
		layers: [
			...['records', 'club', 'genetics', 'planning', 'pedigree', 'season', 'protocol', 'sync', 'handover']
		],
		packages: [...syncPackages, 'highs']
	},
	// What every subject shares knows none of the subjects.
	'ui/shared': { layers: lib.filter((layer) => layer !== 'ui'), packages: ['kit', 'any'] },
	ui: { layers: lib, packages: ['kit', 'any'] },
	routes: { layers: lib, packages: ['kit', 'any'] },
	// Pages' server halves and the hooks: they run in the server's process and are bundled for it.
	'routes on the server': { layers: [...lib, 'routes', 'server'], packages: ['kit', 'any', 'server'] },
	'service worker': { layers: ['protocol', 'sync'], packages: ['kit', 'idb'] },
	'app types': { layers: [...lib, 'server'], packages: ['kit', 'any'] },
	server: {
		// Hand-over: the demo club's bags carry numbers with their check letters.
		layers: ['records', 'club', 'pedigree', 'genetics', 'planning', 'season', 'protocol', 'handover'],
		// SvelteKit's words for answers and cookies; nothing of its pages.
		packages: ['any', 'server', '@sveltejs/kit']
	}
};

/** The layer of a file, or undefined where the table has no place for it. */
export function layerOf(path: string): string | undefined {
	const [top, second, third, fourth] = path.split('/');
	if (top === 'server') return 'server';
	if (top !== 'src' || second === undefined) return undefined;
	if (/^src\/hooks\.server\.ts$/.test(path)) return 'routes on the server';
	if (second === 'hooks.client.ts' || second === 'hooks.ts') return 'routes';
	if (second === 'app.d.ts') return 'app types';
	if (second === 'service-worker' && third !== undefined) return 'service worker';
	if (second === 'routes')
		return /\/\+server\.ts$|\.server\.ts$/.test(path) ? 'routes on the server' : 'routes';
	if (second !== 'lib' || fourth === undefined) return undefined;
	if (third === 'ui') return fourth === 'shared' ? 'ui/shared' : 'ui';
	return third !== undefined && Object.hasOwn(layers, third) ? third : undefined;
}

/** Sentences on everything that breaks the table; empty when all is well. */
export function layerViolations(sources: readonly SourceFile[]): string[] {
	return sources.flatMap((source) => {
		const layer = layerOf(source.path);
		if (layer === undefined)
			return [`${source.path} is in no known layer: give its folder a line in the table`];
		return importsOf(source)
			.filter(({ file, specifier }) => !mayImport(layer, source.path, file, specifier))
			.map(({ specifier }) => `${source.path} (${layer}) must not import ${specifier}`);
	});
}

function mayImport(layer: string, from: string, file: string | undefined, specifier: string): boolean {
	const { layers: allowed, packages } = layers[layer]!;
	if (file === undefined) return mayUse(packages, specifier);
	// SvelteKit writes these types beside each page.
	if (/\/\$types(\.js|\.d\.ts)?$/.test(file)) return from.startsWith('src/routes/');
	// Plain Node loads these layers, and it knows nothing of Svelte.
	if (/\.svelte(\.ts)?$/.test(file) && !packages.includes('kit')) return false;
	// The entry starts what the build made; everything stateful is inside that.
	if (from === 'server/main.ts' && /^build\/handler\.js$/.test(file)) return true;
	const target = layerOf(file);
	return target !== undefined && (target === layer || allowed.includes(target));
}

function mayUse(packages: readonly string[], specifier: string): boolean {
	const is = (name: string) =>
		specifier === name || specifier.startsWith(name.endsWith(':') ? name : `${name}/`);
	// `$lib` is left out on purpose: Node knows only the aliases of package.json.
	if (is('@sveltejs/kit')) return packages.includes('kit') || packages.includes('@sveltejs/kit');
	if (/^\$(app|env|service-worker)(\/|$)/.test(specifier) || is('svelte')) return packages.includes('kit');
	if (specifier.startsWith('$') || specifier.startsWith('#')) return false;
	if (serverPackages.some(is)) return packages.includes('server');
	return packages.includes('any') || packages.some(is);
}
