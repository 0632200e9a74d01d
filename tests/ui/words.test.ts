import { describe, expect, it } from 'vitest';
import { cautionEnding, cautions } from '#ui/shared/cautions.ts';
import { edgeWords } from '#ui/shared/edgeWords.ts';
import { shapes } from '#ui/shared/shapes.ts';
import { sharingWords } from '#ui/shared/sharingWords.ts';
import { statusWords, type StatusWord } from '#ui/shared/statusWords.ts';

const nothing = { sharing: 'shared', verdict: null, room: false, twoVersions: false } as const;

describe('words beside what was written', () => {
	it('sharingWords says one word when nothing is needed', () => {
		expect(sharingWords(nothing).map((said) => said.word)).toEqual(['shared with the club']);
		expect(sharingWords({ ...nothing, sharing: 'device' }).map((said) => said.word)).toEqual([
			'only on this device'
		]);
		expect(sharingWords({ ...nothing, room: true }).map((said) => said.word)).toEqual(['kept for your room']);
	});

	it('sharingWords never says "kept for your room" before the club has it', () => {
		expect(sharingWords({ ...nothing, sharing: 'device', room: true })[0]?.word).toBe('only on this device');
		expect(sharingWords({ ...nothing, sharing: 'needs-you', room: true })[0]?.next).toContain('officer');
	});

	it.each(['told by', 'waiting', 'not allowed', 'not understood'] as const)(
		'sharingWords adds "%s" and why',
		(name) => {
			const said = sharingWords({ ...nothing, verdict: { name, why: 'Because.' } });
			expect(said).toEqual([
				{ word: 'shared with the club', next: '' },
				{ word: name, next: 'Because.' }
			]);
		}
	);

	it('the edge line names the gravest thing only', () => {
		const calm = { unshared: 0, online: true, needsYou: 0, problem: '' };
		expect(edgeWords(calm).words).toBe('everything shared');
		expect(edgeWords({ ...calm, online: false }).words).not.toContain('everything shared');
		expect(edgeWords({ ...calm, unshared: 3 }).words).toBe('3 not shared yet');
		expect(edgeWords({ ...calm, online: false, reaching: true }).words).toBe('looking for what is new');
		expect(edgeWords({ ...calm, unshared: 3, online: false, needsYou: 1 }).words).toBe(
			'3 not shared yet, no signal · 1 needs you'
		);
		expect(edgeWords({ ...calm, unshared: 3, problem: 'No room left.' }).words).toBe('No room left.');
	});
});

describe('status words', () => {
	const all = Object.entries(statusWords).flatMap(([subject, words]) =>
		Object.entries<StatusWord>(words).map(([word, status]) => ({ subject, word, status }))
	);

	it('no two words of one subject that a person must tell apart share shape and tone', () => {
		for (const subject of ['holding', 'line', 'sharing', 'certainty', 'tank']) {
			const signs = all.filter((each) => each.subject === subject).map(({ status }) => status.shape);
			expect(new Set(signs).size, subject).toBe(signs.length);
		}
	});

	it('every word says what it means, without blame and without exclamation marks', () => {
		for (const { word, status } of all) {
			expect(status.means, word).toMatch(/\.$/);
			expect(`${word} ${status.means}`).not.toMatch(/!|fault|fail(ed)? to|guilty|wrong/i);
			expect(Object.keys(shapes)).toContain(status.shape);
		}
	});
});

describe('cautions', () => {
	it('every caution is short, gives no dose, and the ending defers to the law and to a vet', () => {
		expect(cautionEnding).toMatch(/local law/);
		expect(cautionEnding).toMatch(/aquatic veterinarian/);
		for (const [moment, { title, text }] of Object.entries(cautions)) {
			expect(`${title} ${text}`.split(/\s+/).length, moment).toBeLessThan(65);
			expect(`${title} ${text}`).not.toMatch(/\d\s?(mg|ml|g\/|drops)|!/);
		}
	});

	it('surplus fish are never to be released outdoors', () =>
		expect(cautions.surplus.title).toMatch(/^Never release/));
	// Default quarantine: common practice, no source.
	it('receiving names 28 days', () => expect(cautions.receiving.title).toContain('28 days'));
});
