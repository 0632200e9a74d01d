import { describe, expect, test } from 'vitest';
import { pathsBelow, readSource } from '#tests/architecture/sources.ts';

const spec = readSource('src/lib/records/SPEC.md').text;
const rules = [...spec.matchAll(/^- \*\*\[(R\d+)\]\*\*/gm)].map((found) => found[1] ?? '');

/** Rules cited by the names of tests, not by their comments. */
function citedByTests(text: string): string[] {
	const names = [...text.matchAll(/\b(?:test|it|describe)(?:\.each\([^\n]*\))?\(\s*(['"`])(.*?)\1/gs)];
	const given = [...text.matchAll(/\bname: (['"`])(.*?)\1/g)];
	return [...names, ...given].flatMap((found) => rulesIn(found[2] ?? ''));
}

function rulesIn(text: string): string[] {
	return [...text.matchAll(/\[(R\d+)\]/g)].map((found) => found[1] ?? '');
}

/** Rules cited by comments in the code: `SPEC R20 to R24, R31`. */
function citedByCode(text: string): string[] {
	return [...text.matchAll(/SPEC ((?:R\d+(?:, | to | and )?)+)/g)].flatMap((found) =>
		[...(found[1] ?? '').matchAll(/R\d+/g)].map((rule) => rule[0])
	);
}

describe('the rules on the page', () => {
	const tests = pathsBelow('tests/records').filter((path) => path.endsWith('.test.ts'));
	const cited = new Set(tests.flatMap((path) => citedByTests(readSource(path).text)));

	test('are numbered once each, in order', () => {
		expect(rules.length).toBeGreaterThan(40);
		expect(new Set(rules).size).toBe(rules.length);
		expect(rules).toEqual(rules.toSorted((a, b) => Number(a.slice(1)) - Number(b.slice(1))));
	});

	test.each(rules)('%s is held by a test', (rule) => expect(cited).toContain(rule));

	test('are the only ones that tests cite', () =>
		expect([...cited].filter((rule) => !rules.includes(rule))).toEqual([]));

	test('are the only ones that comments in the code cite', () => {
		const code = pathsBelow('src/lib/records').filter((path) => path.endsWith('.ts'));
		const unknown = code.flatMap((path) =>
			citedByCode(readSource(path).text)
				.filter((rule) => !rules.includes(rule))
				.map((rule) => `${path}: ${rule}`)
		);
		expect(unknown).toEqual([]);
	});
});

test('a rule in a comment is no citation, one in a name is', () => {
	expect(citedByTests("// [R1]\ntest('[R2] x', () => {});\nit.each(seeds)('[R3] (seed %i)', f);")).toEqual([
		'R2',
		'R3'
	]);
	expect(citedByCode('(SPEC R20 to R24, R31)')).toEqual(['R20', 'R24', 'R31']);
});
