import type { ThingId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';
import type { GrownTable } from './goneOn.ts';
import { KinshipOfGroups } from './kinshipOfGroups.ts';

/** Lines whose tables are kept: of a line with 400 groups one is some 10 MB. */
const mostKept = 4;

/**
 * The last tables of the lines that were asked about, to go on from: a new brood then costs one new row.
 *
 * What is kept changes no answer: a table is gone on from only as far as its events are the same (`goneOn`), so that
 * questions stay functions of the state alone.
 */
class LineKinships {
	readonly #kept = new Map<ThingId, GrownTable>();

	of(state: ClubState, line: ThingId): KinshipOfGroups {
		const kinship = new KinshipOfGroups(state, line, this.#kept.get(line) ?? null);
		this.#kept.delete(line);
		this.#kept.set(line, kinship.grown);
		for (const oldest of this.#kept.keys()) {
			if (this.#kept.size <= mostKept) break;
			this.#kept.delete(oldest);
		}
		return kinship;
	}
}

export const lineKinships = new LineKinships();
