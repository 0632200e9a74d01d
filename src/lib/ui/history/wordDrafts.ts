/** What is written about what somebody wrote. */
import type { Draft, EntryId } from '#records/entry.ts';
import type { Fish } from '#records/state.ts';
import type { Statement } from '#club/history/historyOf.ts';

function about(statement: Statement): Draft['about'] {
	const body = (statement.body ?? {}) as {
		group?: unknown;
		spawn?: unknown;
		line?: unknown;
		room?: unknown;
		bag?: unknown;
	};
	return [body.group, body.spawn, body.bag, body.line, body.room].filter(
		(id): id is string => typeof id === 'string'
	);
}

/** All versions that the writer has seen: the statement and the corrections that stand in its place. */
function seen(statement: Statement): readonly EntryId[] {
	return [statement.id, ...statement.correctedBy];
}

export function confirmed(statement: Statement, happened: string): Draft {
	return { kind: 'word/confirmed', happened, about: about(statement), body: { entry: statement.id } };
}

export function disputed(statement: Statement, happened: string, reason: string): Draft {
	return { kind: 'word/disputed', happened, about: about(statement), body: { entry: statement.id, reason } };
}

export function decided(
	statement: Statement,
	dispute: EntryId,
	happened: string,
	stands: boolean,
	reason: string
): Draft {
	return {
		kind: 'word/decided',
		happened,
		about: about(statement),
		body: { dispute, of: statement.id, stands, reason }
	};
}

export function withdrawn(statement: Statement, happened: string, reason: string): Draft {
	return {
		kind: 'word/withdrawn',
		happened,
		about: about(statement),
		corrects: seen(statement),
		body: { reason }
	};
}

/** The number that somebody wrote, if the statement is one that says a single number. */
export function numberIn(statement: Statement): Fish | null {
	if (statement.kind !== 'group/counted' && statement.kind !== 'group/changed') return null;
	return (statement.body as { fish: Fish }).fish;
}

/**
 * Another number in place of the one written: the old statement is taken back with its reason, the new one stands at
 * the same time as the old.
 */
export function otherNumber(statement: Statement, happened: string, fish: Fish, reason: string): Draft[] {
	return [
		withdrawn(statement, happened, reason),
		{
			kind: statement.kind,
			happened: statement.happened,
			about: about(statement),
			body: { ...(statement.body as object), fish }
		}
	];
}
