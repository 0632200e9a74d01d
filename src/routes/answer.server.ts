/** The one place where what went wrong becomes an answer. */
import { fail, json, type ActionFailure, type RequestEvent } from '@sveltejs/kit';
import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import type { Refusal } from '#protocol/api.ts';
import { AppError, problems, type ProblemCode } from '#server/appError.ts';

/** SvelteKit's own redirects and errors pass through untouched. */
function isKits(error: unknown): boolean {
	return (
		typeof error === 'object' &&
		error !== null &&
		'status' in error &&
		('location' in error || 'body' in error)
	);
}

/** Code, status and words; logs what nobody foresaw under an id. */
function refusalOf(error: unknown): { readonly status: number; readonly refusal: Refusal } {
	let code: ProblemCode = 'server-problem';
	if (error instanceof AppError) code = error.code;
	else if (error instanceof z.ZodError || error instanceof SyntaxError) code = 'not-understood';
	else logProblem(error);
	const { status, sentence, whatToDo } = problems[code];
	return { status, refusal: { code, sentence, whatToDo } };
}

/** One line: an id, the sort of error and where it was thrown; never its message, which may quote what a person wrote. */
export function logProblem(error: unknown): string {
	const id = randomUUID().slice(0, 8);
	const name = error instanceof Error ? error.name : typeof error;
	const where =
		error instanceof Error ? (error.stack?.split('\n').find((line) => line.includes('    at ')) ?? '') : '';
	console.error(`server-problem ${id} ${name}${where.replace(/\s+/g, ' ')}`);
	return id;
}

/** A handler of the JSON interface: what it returns is the answer's body. */
export function answer<Event extends RequestEvent>(handler: (event: Event) => Promise<unknown>) {
	return async (event: Event): Promise<Response> => {
		try {
			const result = await handler(event);
			if (result instanceof Response) return result;
			return json(result ?? { ok: true }, { headers: { 'cache-control': 'no-store' } });
		} catch (error) {
			if (isKits(error)) throw error;
			const { status, refusal } = refusalOf(error);
			return json(refusal, { status, headers: { 'cache-control': 'no-store' } });
		}
	};
}

/** What a form gets back: the words to show, and what was typed (never a password). */
export interface FormProblem extends Refusal {
	readonly values: Readonly<Record<string, string>>;
}

/** A form's action: the handler gets the fields as plain text; what was typed comes back when it fails. */
export function formAction<Event extends RequestEvent, Result>(
	handler: (event: Event, fields: Record<string, string>) => Promise<Result>
) {
	return async (event: Event): Promise<Result | ActionFailure<FormProblem>> => {
		const form = await event.request.formData();
		const fields: Record<string, string> = {};
		for (const [name, value] of form) if (typeof value === 'string') fields[name] = value;
		try {
			return await handler(event, fields);
		} catch (error) {
			if (isKits(error)) throw error;
			const { status, refusal } = refusalOf(error);
			const values = Object.fromEntries(Object.entries(fields).filter(([name]) => !/password/i.test(name)));
			return fail(status, { ...refusal, values });
		}
	};
}

/** The JSON body of a request, checked. */
export async function bodyOf<Schema extends z.ZodType>(
	event: RequestEvent,
	schema: Schema
): Promise<z.infer<Schema>> {
	return schema.parse(await event.request.json());
}
