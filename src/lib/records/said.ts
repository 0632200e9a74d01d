/** Who said it and when, as it stands in the state beside what was said. */
import type { Told } from './kind.ts';
import type { Certainty, CountStatement, Fish, Said, Stage } from './state.ts';

export function said(told: Told): Said {
	const { entry } = told;
	return { entry: entry.id, by: entry.by, toldBy: entry.toldBy ?? null, when: told.when };
}

// The next two are made by the ten thousand: fields written out take half the memory of those spread in.

export function countSaid(told: Told, fish: Fish, certainty: Certainty): CountStatement {
	const { entry } = told;
	return { entry: entry.id, by: entry.by, toldBy: entry.toldBy ?? null, when: told.when, fish, certainty };
}

export function stageSaid(told: Told, stage: Stage): Said & { readonly stage: Stage } {
	const { entry } = told;
	return { entry: entry.id, by: entry.by, toldBy: entry.toldBy ?? null, when: told.when, stage };
}
