export type StatementAction = 'correct' | 'dispute' | 'decide' | 'restore' | 'versions' | 'erase';

/** Reasons in one tap; the words go into the record as they stand. */
export const quickReasons = {
	dispute: ['It was another number', 'It was another day', 'They were other fish', 'It did not happen'],
	restore: ['It was right after all', 'Taken back by mistake'],
	versions: ['Counted again', 'We talked about it', 'Written twice']
} as const;
