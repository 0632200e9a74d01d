/** What every question of `npm run numbers` is, and how input that does not fit is told of. */
import type * as z from 'zod';

/** Something in the input that a person can mend: a code for programs, a sentence for people. */
export interface Problem {
	readonly code: string;
	readonly ids: readonly string[];
	readonly sentence: string;
}

export type Answer = { readonly answer: object } | { readonly problems: readonly Problem[] };

/** Reads the input, which is any JSON, and answers or says all that is wrong with it. */
export type Question = (input: unknown) => Answer | Promise<Answer>;

/** The input in the form that the schema asks for, or all places where it is not. */
export function read<Schema extends z.ZodType>(
	schema: Schema,
	input: unknown
): { readonly input: z.output<Schema> } | { readonly problems: readonly Problem[] } {
	const result = schema.safeParse(input);
	if (result.success) return { input: result.data };
	return { problems: result.error.issues.map(problemOf) };
}

function problemOf(issue: z.core.$ZodIssue): Problem {
	const where = placeName(issue.path);
	if (issue.code === 'unrecognized_keys')
		return {
			code: 'unknownKey',
			ids: issue.keys,
			sentence: `${where} has ${issue.keys.map((key) => JSON.stringify(key)).join(', ')}, which is not known here. Check the spelling or leave it out.`
		};
	if (issue.code === 'invalid_type' && issue.message.endsWith('received undefined'))
		return { code: 'form', ids: [], sentence: `${where} is missing.` };
	// What the schema says by itself reads "Invalid input: expected object, received null".
	const why = issue.message.replace(/^Invalid input: /, '').replace(/, received /, ', not ');
	return { code: 'form', ids: [], sentence: `${where} is not as it must be: ${why}.` };
}

/** `fish[3].mother`, or `The input` for all of it. */
function placeName(path: readonly PropertyKey[]): string {
	const name = path.map((part) => (typeof part === 'number' ? `[${part}]` : `.${String(part)}`)).join('');
	return name.replace(/^\./, '') || 'The input';
}

/** An id as a sentence shows it. */
export const quoted = (id: string) => JSON.stringify(id);
