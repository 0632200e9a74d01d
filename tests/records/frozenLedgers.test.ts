import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Fold, type FoldInput } from '#records/fold.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { shuffled } from '#tests/helpers/randomHistory.ts';
import { root } from '#tests/architecture/sources.ts';

const folder = join(root, 'tests/fixtures/ledgers');
const ledgers = readdirSync(folder).filter((name) => /^\d{4}-\d\d$/.test(name));

function inputsOf(ledger: string): FoldInput[] {
	const lines = readFileSync(join(folder, ledger, 'entries.jsonl'), 'utf8')
		.trim()
		.split('\n');
	return lines.map((line): FoldInput => {
		const { entry, stamp } = JSON.parse(line) as { entry: object; stamp: FoldInput['stamp'] | null };
		return { text: JSON.stringify(entry), ...(stamp ? { stamp } : {}) };
	});
}

/** Fields may be added to the state, never changed or lost: compares what the old state has. */
function expectKept(now: unknown, kept: unknown, path: string): void {
	if (Array.isArray(kept)) {
		expect([path, Array.isArray(now) && now.length]).toEqual([path, kept.length]);
		kept.forEach((one, i) => expectKept((now as unknown[])[i], one, `${path}/${i}`));
	} else if (kept !== null && typeof kept === 'object') {
		for (const [field, value] of Object.entries(kept)) {
			expectKept((now as Record<string, unknown> | undefined)?.[field], value, `${path}/${field}`);
		}
	} else expect([path, now]).toEqual([path, kept]);
}

describe('ledgers of earlier versions', () => {
	it('[R1] there is one at least', () => expect(ledgers).toContain('2026-11'));

	it.each(ledgers)('[R1] the record of %s means today what it meant then', (ledger) => {
		const kept: unknown = JSON.parse(readFileSync(join(folder, ledger, 'state.json'), 'utf8'));
		for (const inputs of [inputsOf(ledger), shuffled(inputsOf(ledger), 5)]) {
			const fold = new Fold();
			fold.add(inputs);
			expectKept(JSON.parse(JSON.stringify(foldPicture(fold))), kept, ledger);
		}
	});

	it('[R1] a changed or lost field is found', () => {
		expect(() => expectKept({ a: [1, 2] }, { a: [1, 3] }, '')).toThrow();
		expect(() => expectKept({}, { a: null }, '')).toThrow();
		expect(() => expectKept({ a: [1, 2] }, { a: [1] }, '')).toThrow();
		expectKept({ a: [1], more: true }, { a: [1] }, '');
	});
});
