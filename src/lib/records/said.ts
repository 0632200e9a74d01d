import type { Told } from './kind.ts';
import type { Said } from './state.ts';

/** Who said it and when, as it stands in the state beside what was said. */
export function said(told: Told): Said {
	return { entry: told.entry.id, by: told.entry.by, toldBy: told.entry.toldBy ?? null, when: told.when };
}
