/**
 * A short code that can be said in a noisy hall, made from a line's name and never one that is taken.
 *
 * @example
 * codeFor('Harbour guppy', new Set()) // => 'HAR-GUP'
 * @example
 * codeFor('Harbour guppy', new Set(['HAR-GUP'])) // => 'HAR-GUP-2'
 */
export function codeFor(name: string, taken: ReadonlySet<string>): string {
	const words = name
		.normalize('NFD')
		.replace(/\p{M}/gu, '')
		.toUpperCase()
		.split(/[^\p{L}\p{N}]+/u)
		.filter(Boolean);
	const base =
		words
			.slice(0, 3)
			.map((word) => [...word].slice(0, 3).join(''))
			.join('-') || 'LINE';
	let code = base;
	for (let number = 2; taken.has(code); number++) code = `${base}-${number}`;
	return code;
}
