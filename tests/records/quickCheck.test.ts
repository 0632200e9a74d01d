import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod/mini';
import { kinds } from '#records/kinds.ts';
import { quickCheck } from '#records/quickCheck.ts';
import { readBody } from '#records/readBody.ts';
import { ledgerHistory } from '#tests/bench/ledgerHistory.ts';
import { table } from './verdictTable.ts';

const scene = { counted: 'entry-counted', disputed: 'entry-disputed' };
const bodies = Object.entries(table).map(([kind, row]) => ({ kind, body: row.body(scene) }));
const schemaOf = (kind: string) => kinds.get(kind)?.schema ?? z.never();

/** Values that stand at an edge of what a schema takes, or well outside of it. */
const edge = fc.oneof(
	fc.constantFrom<unknown>(
		null,
		'',
		'x'.repeat(64),
		'x'.repeat(65),
		'a\u0000b',
		'\ud800',
		'0417K',
		'2026-03-14'
	),
	fc.constantFrom<unknown>(0, -0, -1, 0.5, NaN, 99_999, 100_000, 2 ** 53, true, [], {}, [null], {
		to: 'open'
	}),
	fc.constantFrom<unknown>('counted', 'eyed', 'yes', 'room', { to: 'room', room: 'r1' }, ['b1', 'b2']),
	fc.jsonValue({ maxDepth: 2 })
);

/** The body with the value at one of its places changed, put in or taken away. */
function changed(body: unknown, path: readonly number[], value: unknown, drop: boolean): unknown {
	if (typeof body !== 'object' || body === null) return value;
	const fields = [...Object.keys(body), Array.isArray(body) ? String(body.length) : 'beside'];
	const [at = 0, ...deeper] = path;
	const field = fields[at % fields.length] ?? '';
	const copy = (Array.isArray(body) ? [...(body as unknown[])] : { ...body }) as Record<string, unknown>;
	if (drop) delete copy[field];
	else copy[field] = deeper.length > 0 ? changed(copy[field], deeper, value, false) : value;
	return copy;
}

describe('the quick check of a body', () => {
	it('[R5] says yes to every body that our own app writes: a kind that it never knows would be slow', () => {
		for (const { kind, body } of bodies)
			expect([kind, quickCheck(schemaOf(kind))(body)]).toEqual([kind, true]);
		const written = ledgerHistory(3, 1_500).map(({ entry }) => entry);
		for (const { kind, body } of written)
			expect([kind, quickCheck(schemaOf(kind))(body)]).toEqual([kind, true]);
	});

	const seed = 7;
	it(`[R5] says yes only where the schema makes an equal value of it (seed ${seed})`, () => {
		const said = { yes: 0, no: 0 };
		fc.assert(
			fc.property(
				fc.constantFrom(...bodies),
				fc.array(fc.nat(20), { minLength: 1, maxLength: 3 }),
				edge,
				fc.boolean(),
				({ kind, body }, path, value, drop) => {
					const given = changed(structuredClone(body), path, value, drop);
					const yes = quickCheck(schemaOf(kind))(given);
					said[yes ? 'yes' : 'no']++;
					if (!yes) return;
					const parsed = schemaOf(kind).safeParse(given);
					expect(parsed.success && parsed.data).toStrictEqual(given);
				}
			),
			{ seed, numRuns: 20_000 }
		);
		// Both answers were heard often, or the property says nothing.
		expect(Math.min(said.yes, said.no)).toBeGreaterThan(500);
	});

	it('[R5] says no to what it does not know how to check, and leaves it to the schema', () => {
		const unknown = [
			[z.optional(z.string()), 'a'],
			[
				z.union([z.object({ a: z.string() }), z.object({ a: z.string(), b: z.string() })]),
				{ a: 'x', b: 'y' }
			],
			[z.string().check(z.regex(/a/g)), 'a'],
			[z.strictObject({ a: z.string() }), { a: 'x' }],
			[z.number(), 0.5],
			[z.email(), 'not one'],
			[
				z.pipe(
					z.string(),
					z.transform((text: string) => text.length)
				),
				'abc'
			]
		] as const;
		for (const [schema, value] of unknown) expect(quickCheck(schema)(value)).toBe(false);
	});

	it('[R5] a body that is right is not copied; one with more in it loses that', () => {
		const kind = kinds.get('room/reopened') ?? null;
		const body = { room: 'r1' };
		expect(readBody({ version: 1, body }, kind).body).toBe(body);
		expect(readBody({ version: 1, body: { ...body, more: 1 } }, kind)).toEqual({ body, problem: '' });
		expect(readBody({ version: 1, body: { room: 7 } }, kind).problem).toBe('it is not well formed');
		expect(readBody({ version: 2, body }, kind).problem).toBe('it is from a newer version of the app');
	});
});
