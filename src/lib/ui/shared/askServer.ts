import type { Refusal } from '#protocol/api.ts';

/** What the server said: its answer, or one sentence on what is wrong and what to do. */
export type ServerSaid<Value> =
	| { readonly ok: true; readonly value: Value }
	/** `code`: the server's own word for it, or `no-signal`. */
	| { readonly ok: false; readonly code: string; readonly sentence: string };

const noSignal = {
	ok: false,
	code: 'no-signal',
	sentence: 'The club’s server cannot be reached, so nothing was changed. Try again when there is a signal.'
} as const;

/**
 * Asks the club's server for something that only it can do: roles, contacts, erasing. Nothing of it is kept here.
 *
 * @param body left out = a plain look; else it is sent as JSON
 */
export async function askServer<Value>(path: string, body?: unknown): Promise<ServerSaid<Value>> {
	const request: RequestInit =
		body === undefined
			? {}
			: { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
	let answer: Response;
	try {
		answer = await fetch(path, { credentials: 'same-origin', cache: 'no-store', ...request });
	} catch {
		return noSignal;
	}
	const said: unknown = await answer.json().catch(() => null);
	if (answer.ok) return { ok: true, value: said as Value };
	const { code, sentence, whatToDo } = (said ?? {}) as Partial<Refusal>;
	// A page of something between, such as a hall's own network, is no answer of the club's server.
	return code && sentence ? { ok: false, code, sentence: `${sentence} ${whatToDo ?? ''}`.trim() } : noSignal;
}
