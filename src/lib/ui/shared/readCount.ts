import type { Fish } from '#records/state.ts';

/** More than this in one group is a slip of the finger. */
export const mostFish = 99_999;

/**
 * Which fish are meant by what was typed? Reads the keepers' notation `2.3.6` (males, females, not sexed), our own
 * `2m 3f 6?` in any order, and a bare number (not sexed).
 *
 * @returns null when it is none of these
 * @example
 * readCount('2.3.6') // => { males: 2, females: 3, unsexed: 6 }
 * @example
 * readCount('3f 2m') // => { males: 2, females: 3, unsexed: 0 }
 * @example
 * readCount('a few') // => null
 */
export function readCount(typed: string): Fish | null {
	const text = typed.trim().toLowerCase();
	const dotted = /^(\d{1,5})\.(\d{1,5})(?:\.(\d{1,5}))?$/.exec(text);
	if (dotted)
		return { males: Number(dotted[1]), females: Number(dotted[2]), unsexed: Number(dotted[3] ?? 0) };
	if (/^\d{1,5}$/.test(text)) return { males: 0, females: 0, unsexed: Number(text) };
	const fish = { m: 0, f: 0, '?': 0 };
	const seen = new Set<string>();
	for (const part of text.split(/[\s,]+/)) {
		const read = /^(\d{1,5})([mf?])$/.exec(part);
		const sex = read?.[2] as keyof typeof fish | undefined;
		if (!read || !sex || seen.has(sex)) return null;
		seen.add(sex);
		fish[sex] = Number(read[1]);
	}
	return { males: fish.m, females: fish.f, unsexed: fish['?'] };
}
