import type { Verdict } from '#records/state.ts';
import type { WordOf } from './statusWords.ts';

/** Where an entry is: in this device's own store only, on the club's disk, or kept here because the server will not take it as it is. */
export type Sharing = 'device' | 'shared' | 'needs-you';

export interface SharingSaid {
	readonly word: WordOf<'sharing'>;
	/** Why, and what to do next; '' when nothing is to be done. */
	readonly next: string;
}

/**
 * Which words stand beside something that was written? First how far it has got, then what it needs.
 *
 * @returns one or two words; the second only when a person is needed
 */
export function sharingWords(of: {
	readonly sharing: Sharing;
	readonly verdict: Verdict | null;
	readonly room: boolean;
	readonly twoVersions: boolean;
}): SharingSaid[] {
	const said: SharingSaid[] = [];
	if (of.sharing === 'device') {
		said.push({ word: 'only on this device', next: 'It is shared by itself when there is a signal.' });
	} else if (of.sharing === 'needs-you') {
		said.push({
			word: 'only on this device',
			next: 'The club’s server did not take it. Save it to a file and show it to an officer.'
		});
	} else if (of.room) said.push({ word: 'kept for your room', next: '' });
	else said.push({ word: 'shared with the club', next: '' });
	const verdict = of.verdict?.name ?? 'counts';
	if (verdict !== 'counts') said.push({ word: verdict, next: of.verdict?.why ?? '' });
	if (of.twoVersions) {
		said.push({ word: 'two versions, needs a look', next: 'Look at both and say which one holds.' });
	}
	return said;
}
