import type { LineDefinition } from '#records/state.ts';

export interface DefinitionProblems {
	readonly name: string;
	readonly code: string;
}

/**
 * What is wrong with a line's description, one sentence each? '' = nothing.
 *
 * @param others codes and names of all other lines, also of those that are lost: a code is never used again
 */
export function definitionProblems(
	definition: LineDefinition,
	others: readonly { readonly code: string; readonly name: string }[]
): DefinitionProblems {
	const same = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();
	const name = definition.name.trim();
	const code = definition.code.trim();
	return {
		name: name
			? others.some((other) => same(other.name, name))
				? 'Another line has this name: add a word that tells them apart.'
				: ''
			: 'Write the name of the line.',
		code: code
			? others.some((other) => same(other.code, code))
				? 'Another line has this code, and a code is never used again: change a letter.'
				: ''
			: 'Write a short code, for example HARBOUR-2.'
	};
}

export function tidied(definition: LineDefinition): LineDefinition {
	// Names and localities stay as they were received; only the edges and the code are tidied.
	return {
		...definition,
		name: definition.name.trim(),
		code: definition.code.trim().toUpperCase(),
		taxonVerbatim: definition.taxonVerbatim.trim(),
		taxonTidy: definition.taxonTidy.trim(),
		localityVerbatim: definition.localityVerbatim.trim(),
		localityCode: definition.localityCode.trim(),
		source: definition.source.trim()
	};
}
