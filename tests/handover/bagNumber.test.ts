import { describe, expect, it } from 'vitest';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import { bagNumberText } from '#records/bagNumberText.ts';
import { checkLetter, checkLetters } from '#handover/checkLetter.ts';
import { letterFor, readBagNumber } from '#handover/readBagNumber.ts';

/** The schema that records hold bag numbers to. */
const asRecorded = /^\d{3,8}[A-Z]$/;

describe('checkLetter(digits)', () => {
	it('agrees with ISO/IEC 7064 MOD 11-2 on a published ISNI', () => {
		// ORCID's public example 0000-0002-1825-0097 and ISNI 0000 0001 2103 2683 end in the check digits 7 and 3;
		// ISNI of the form 0000 0001 2281 955X ends in X, the value 10 (from memory). Our function takes 8 digits, so the
		// same sum is formed here over all 15, and the letter is compared on the part that fits.
		const mod11dash2 = (digits: string) => {
			let sum = 0;
			for (const digit of digits) sum = (sum + Number(digit)) * 2;
			return (12 - (sum % 11)) % 11;
		};
		expect(mod11dash2('000000021825009')).toBe(7);
		expect(mod11dash2('000000012103268')).toBe(3);
		for (let count = 0; count < 10_000; count++) {
			const digits = String(count).padStart(4, '0');
			expect(checkLetters.indexOf(checkLetter(digits))).toBe(mod11dash2(digits));
		}
	});

	it('uses no letter that looks like a digit', () => {
		expect(new Set(checkLetters).size).toBe(11);
		for (const letter of 'IOQBSZGD') expect(checkLetters).not.toContain(letter);
	});

	it('catches every single wrong digit and every swap of any two digits, in all numbers of four and five digits', () => {
		let slips = 0;
		for (let count = 0; count < 100_000; count++) {
			const digits = String(count).padStart(count < 10_000 ? 4 : 5, '0');
			const letter = checkLetter(digits);
			for (let i = 0; i < digits.length; i++) {
				for (let other = 0; other < 10; other++) {
					if (Number(digits[i]) === other) continue;
					slips++;
					if (checkLetter(digits.slice(0, i) + other + digits.slice(i + 1)) === letter)
						throw new Error(`${digits} ${i} ${other}`);
				}
				for (let j = i + 1; j < digits.length; j++) {
					if (digits[i] === digits[j]) continue;
					const swapped = [...digits];
					[swapped[i], swapped[j]] = [swapped[j]!, swapped[i]!];
					slips++;
					if (checkLetter(swapped.join('')) === letter) throw new Error(`${digits} ${i}<->${j}`);
				}
			}
		}
		// 10,000 numbers of four digits and 90,000 of five, nine wrong digits in each place: the swaps come on top.
		expect(slips).toBeGreaterThan(10_000 * 36 + 90_000 * 45);
	});

	it('catches them in numbers of eight digits: the weights alone decide', () => {
		// Changing the digit at place i by d changes the sum by d * 2^(i+1); swapping neighbours by (a - b) * 2^(i+1).
		for (let place = 1; place <= 8; place++)
			for (let difference = 1; difference <= 9; difference++) {
				expect((difference * 2 ** place) % 11).not.toBe(0);
				const far = 10 ** (8 - place) * difference;
				expect(checkLetter(String(far).padStart(8, '0'))).not.toBe(checkLetter('00000000'));
			}
	});

	it('does not change with zeros in front', () => {
		for (const count of [1, 417, 99_999]) {
			expect(checkLetter(String(count))).toBe(checkLetter(String(count).padStart(8, '0')));
		}
	});

	it('throws on anything but digits', () => {
		expect(() => checkLetter('')).toThrow(RangeError);
		expect(() => checkLetter('41K')).toThrow(RangeError);
		expect(() => checkLetter('123456789')).toThrow(RangeError);
	});
});

describe('bagNumberOf(count)', () => {
	it('is what records take', () => {
		for (const count of [1, 9, 417, 9_999, 10_000, 99_999_999])
			expect(bagNumberOf(count)).toMatch(asRecorded);
	});

	it('throws outside its range', () => {
		for (const count of [0, -1, 1.5, 100_000_000, Number.NaN])
			expect(() => bagNumberOf(count)).toThrow(RangeError);
	});
});

describe('readBagNumber(typed)', () => {
	it.each([
		'417k',
		'0417 K',
		'0417K',
		' 417-k ',
		'Bag 0417 K',
		'bag417K',
		'No. 417 K',
		'000417k',
		'４１７ｋ',
		'https://fish.example/c/x/bags/0417K',
		'0417.K'
	])('reads %j as 0417 K', (typed) => {
		expect(readBagNumber(typed)).toEqual({ number: '0417K', problem: '' });
	});

	it('reads back every number that it writes', () => {
		for (let count = 1; count < 20_000; count += 7) {
			expect(readBagNumber(bagNumberText(bagNumberOf(count))).number).toBe(bagNumberOf(count));
		}
	});

	it.each([
		['', 'Type the number'],
		['   ', 'Type the number'],
		['0417', 'letter is missing'],
		['0417 F', 'do not fit together'],
		['0147 K', 'do not fit together'],
		['0417 Q', 'never used'],
		['K0417', 'digits and one letter'],
		['harbour', 'digits and one letter'],
		['0000F', 'only zeros'],
		['1234567890123K', 'too long'],
		['0417 KR', 'digits and one letter'],
		['41\u0000', 'digits and one letter']
	])('says in one sentence what is wrong with %j', (typed, words) => {
		const read = readBagNumber(typed);
		expect(read.number).toBeNull();
		expect(read.problem).toContain(words);
		expect(read.problem).not.toContain('!');
	});

	it('gives the whole number when only the letter is missing', () => {
		expect(readBagNumber('417')).toMatchObject({ likely: '0417K' });
		expect(letterFor('417')).toBe('K');
		expect(letterFor('')).toBe('');
		expect(letterFor('000')).toBe('');
	});
});
