/** Bodies as an app of this version understands them: upgraded, checked, with known fields only (SPEC R5, R6). */
import type { Entry } from './entry.ts';
import type { Kind } from './kind.ts';
import { quickCheck } from './quickCheck.ts';
import { upgradeBody } from './upgradeBody.ts';

/** The body, or why it is not understood; '' = it is. */
export interface ReadBody {
	readonly body: unknown;
	readonly problem: string;
}

const fromNewer: ReadBody = { body: null, problem: 'it is from a newer version of the app' };
const malformed: ReadBody = { body: null, problem: 'it is not well formed' };
const quickChecks = new WeakMap<object, (body: unknown) => boolean>();

/** @returns the very body that was given where it is right as it stands: most are, and none of those is copied */
export function readBody(entry: Pick<Entry, 'version' | 'body'>, kind: Kind<unknown> | null): ReadBody {
	if (!kind || entry.version > kind.version) return fromNewer;
	const body = upgradeBody(kind, entry.version, entry.body);
	let isRight = quickChecks.get(kind);
	if (!isRight) quickChecks.set(kind, (isRight = quickCheck(kind.schema)));
	if (isRight(body)) return { body, problem: '' };
	const parsed = kind.schema.safeParse(body);
	return parsed.success ? { body: parsed.data, problem: '' } : malformed;
}
