import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';
import { partIn } from './partIn.ts';

/** My part: what may the asking member do in the club as a whole? For screens; the server and the fold decide. */
export function myPart(state: ClubState, _args: unknown, asking: Asking): { readonly officer: boolean } {
	return { officer: partIn(state, asking.me, null, null).officer };
}
