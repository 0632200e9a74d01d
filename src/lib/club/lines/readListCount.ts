import type { Fish } from '#records/state.ts';

/**
 * Which fish does a count in an old list mean? `1.2.6` is 1 male, 2 females, 6 not sexed; `1.2` has none unsexed;
 * `2m 3f 6?` in any order; a bare number is not sexed. "about", "ca.", "~" and words like "fish" are passed over: a
 * list is a guess anyway.
 *
 * @returns null when nothing is said; 'unreadable' when it is none of these
 * @example
 * readListCount('1.2.6') // => { males: 1, females: 2, unsexed: 6 }
 * @example
 * readListCount('about 12') // => { males: 0, females: 0, unsexed: 12 }
 * @example
 * readListCount('a few') // => 'unreadable'
 */
export function readListCount(typed: string): Fish | null | 'unreadable' {
	const text = typed
		.trim()
		.toLowerCase()
		.replace(/^(about|approx\.?|ca\.?|circa|around|~)\s*/, '')
		.replace(/\s*(fish|young|juveniles|adults)$/, '');
	if (text === '' || text === '?' || text === '-' || text === 'not known') return null;
	const dotted = /^(\d{1,5})\.(\d{1,5})(?:\.(\d{1,5}))?$/.exec(text);
	if (dotted)
		return { males: Number(dotted[1]), females: Number(dotted[2]), unsexed: Number(dotted[3] ?? 0) };
	if (/^\d{1,5}$/.test(text)) return { males: 0, females: 0, unsexed: Number(text) };
	const fish = { m: 0, f: 0, '?': 0 };
	const seen = new Set<string>();
	for (const part of text.split(/[\s/+]+/)) {
		const read = /^(\d{1,5})([mf?])$/.exec(part);
		const sex = read?.[2] as keyof typeof fish | undefined;
		if (!read || !sex || seen.has(sex)) return 'unreadable';
		seen.add(sex);
		fish[sex] = Number(read[1]);
	}
	return { males: fish.m, females: fish.f, unsexed: fish['?'] };
}
