import { expect, test } from 'vitest';
import { kinshipWords } from '#genetics/words/kinshipWords.ts';
import { nextMating } from '#genetics/words/nextMating.ts';

// Values of kinship: Wright 1922, American Naturalist 56:330. The words are our own.
test.each([
	[0.375, 'closer'],
	[0.25, 'siblings'],
	[0.2, 'siblings'],
	[0.15, 'halfSiblings'],
	[0.125, 'halfSiblings'],
	[0.0625, 'cousins'],
	[0.03125, 'distant'],
	[0.001, 'distant'],
	[1e-15, 'none'],
	[0, 'none'],
	[null, 'notKnown']
])('kinshipWords(%s) is %s', (kinship, step) => expect(kinshipWords(kinship).step).toBe(step));

// The limits are common practice, no source.
test.each([
	[0, 'fine'],
	[0.062, 'fine'],
	[0.0625, 'ratherClose'],
	[0.125, 'ratherClose'],
	[0.1 + 0.025, 'ratherClose'],
	[0.126, 'tooClose'],
	[0.25, 'tooClose'],
	[null, 'notKnown']
])('nextMating(%s) is %s', (kinship, tier) => expect(nextMating(kinship).tier).toBe(tier));

test.each([-0.1, 1.1, NaN])('%s is no kinship', (value) => {
	expect(() => kinshipWords(value)).toThrow(RangeError);
	expect(() => nextMating(value)).toThrow(RangeError);
});
