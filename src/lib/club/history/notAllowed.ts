import type { EntryId } from '#records/entry.ts';
import type { ClubState } from '#records/state.ts';
import type { Asking } from '../question.ts';

/**
 * Not allowed: which of these entries were somebody else's to decide, and nobody has taken them back or corrected them
 * since?
 */
export function notAllowed(
	_state: ClubState,
	args: { readonly ids: readonly EntryId[] },
	{ fold }: Asking
): EntryId[] {
	return args.ids.filter((id) => {
		const view = fold.view(id);
		return view?.verdict.name === 'not allowed' && view.correctedBy.length === 0;
	});
}
