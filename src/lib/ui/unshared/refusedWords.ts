import type { RefusalReason } from '#protocol/messages.ts';

const words: Record<RefusalReason, string> = {
	'other-text':
		'The club has this entry with other words already. Save it to a file and show it to an officer.',
	'too-large': 'It is too long for the club’s server. Save it to a file, then write it anew in two parts.',
	'not-yours': 'It was written under another member’s name. That member can load the file, or an officer.',
	'not-an-entry': 'The club’s server cannot read it. Save it to a file and show it to an officer.',
	'together-broken':
		'A part of what was written with it is missing. Load the file that has all of it, or write it anew.',
	erased: 'An officer has erased it, so it stays out of the club’s record.'
};

/** Why the club's server will never take this as it is, and what to do. */
export function refusedWords(reason: RefusalReason | undefined): string {
	return reason
		? words[reason]
		: 'The club’s server did not take it. Save it to a file and show it to an officer.';
}
