export type StatementAction = 'correct' | 'dispute' | 'decide';

/** Reasons in one tap; the words go into the record as they stand. */
export const quickReasons = {
	correct: ['It did not happen', 'Written twice', 'Wrong group or tank', 'Wrong day', 'Wrong number'],
	dispute: ['It was another number', 'It was another day', 'They were other fish', 'It did not happen'],
	decide: []
} as const satisfies Record<StatementAction, readonly string[]>;
