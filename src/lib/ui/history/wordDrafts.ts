/** What is written about what somebody wrote. */
import type { Draft, EntryId, ThingId } from '#records/entry.ts';
import type { Fish } from '#records/state.ts';
import type { Statement, Version } from '#club/history/statement.ts';

function about(statement: Pick<Version, 'body'>): Draft['about'] {
	const body = (statement.body ?? {}) as Record<string, unknown>;
	return [body.group, body.spawn, body.bag, body.line, body.room].filter(
		(id): id is string => typeof id === 'string'
	);
}

/** All versions that the writer has seen: the statement, what stands in its place, and what stands beside it. */
function seen(statement: Statement): readonly EntryId[] {
	return [
		...new Set([statement.id, ...statement.correctedBy, ...statement.versions.map((version) => version.id)])
	];
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

/** What was taken back stands again. */
export function restored(statement: Statement, happened: string, reason: string): Draft {
	return {
		kind: 'word/withdrawn',
		happened,
		about: about(statement),
		corrects: statement.mayRestore,
		body: { reason }
	};
}

/** What is to be read instead of what was written. */
export interface Instead {
	readonly fish?: Fish;
	/** ISO 8601-2. */
	readonly happened?: string;
	readonly group?: ThingId;
}

/** The same statement with another number, day or group: it stands in place of all that its writer has seen. */
export function corrected(statement: Statement, instead: Instead, because: string): Draft {
	const { happened = statement.happened, ...fields } = instead;
	const body = { ...(statement.body as object), ...fields };
	return {
		kind: statement.kind,
		happened,
		about: [...new Set([...about({ body }), ...statement.about])],
		corrects: seen(statement),
		because,
		body
	};
}

/**
 * The version that holds, said anew so that it names all others: that settles them. One that took the statement back
 * takes back all of them.
 */
export function settled(statement: Statement, holds: Version, happened: string, because: string): Draft {
	const others = statement.versions.flatMap((version) => [version.id, ...version.corrects]);
	const corrects = [...new Set([statement.id, ...others])];
	return holds.kind === 'word/withdrawn'
		? { kind: holds.kind, happened, about: holds.about, corrects, body: { reason: because } }
		: {
				kind: holds.kind,
				happened: holds.happened,
				about: holds.about,
				corrects,
				because,
				body: holds.body
			};
}
