import { importsOf, type SourceFile } from './sources.ts';

/** Circles of imports, types too: each as the files on it, in order. Tarjan 1972, SIAM J. Comput. 1:146. */
export function importCycles(sources: readonly SourceFile[]): string[][] {
	const known = new Set(sources.map(({ path }) => path));
	const edges = new Map(
		sources.map((source) => [
			source.path,
			importsOf(source).flatMap(({ file }) => (file !== undefined && known.has(file) ? [file] : []))
		])
	);
	const order = new Map<string, number>();
	const lowest = new Map<string, number>();
	const stack: string[] = [];
	const cycles: string[][] = [];
	const visit = (path: string) => {
		order.set(path, order.size);
		lowest.set(path, order.get(path)!);
		stack.push(path);
		for (const next of edges.get(path)!) {
			if (!order.has(next)) visit(next);
			if (stack.includes(next)) lowest.set(path, Math.min(lowest.get(path)!, lowest.get(next)!));
		}
		if (lowest.get(path) !== order.get(path)) return;
		const together = stack.splice(stack.indexOf(path));
		if (together.length > 1 || edges.get(path)!.includes(path)) cycles.push(together);
	};
	for (const { path } of sources) if (!order.has(path)) visit(path);
	return cycles;
}
