import type { Statement } from '#club/history/statement.ts';
import type { Sharing } from '#ui/shared/sharingWords.ts';

/** A statement as the shared history list shows it. */
export function historyItem(statement: Statement, sharing: Sharing) {
	return {
		id: statement.id,
		sentence: statement.sentence,
		who: statement.who,
		toldBy: statement.toldBy,
		happened: statement.happened,
		written: statement.written,
		sharing,
		verdict: statement.verdict,
		twoVersions: statement.versions.length > 0,
		disputed: statement.openDispute !== null,
		corrected: statement.correctedBy.length > 0
	};
}
