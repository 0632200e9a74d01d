import type { Line } from '#records/state.ts';

export type Crossing = Pick<
	Line,
	'code' | 'name' | 'kind' | 'fishGroup' | 'taxonVerbatim' | 'taxonTidy' | 'rules'
>;

export interface CrossRule {
	/** Why it may not be, as a sentence with what to do; '' = it may. */
	readonly forbidden: string;
	/** What to read before; '' = nothing. */
	readonly caution: string;
}

/** After "any other" or "all other": every other line is meant. */
const anyLine =
	/\b(any|all|every|no) (other )?(lines?|strains?|fish|locality|localities|populations?|species)\b|\b(anything|everything)\b/;

/**
 * Cross rule: may fish of one line be crossed into another on purpose?
 *
 * Only fish of one kind can be; a conservation line is kept pure (common practice, no source); and the rules of either
 * line may say "never". Those rules are free words: what names the other line by code, name or kind stops the cross,
 * anything else is shown, for a person to judge.
 */
export function crossRule(from: Crossing, to: Crossing): CrossRule {
	if (from.fishGroup !== to.fishGroup)
		return { forbidden: `${from.name} and ${to.name} are not of one kind of fish.`, caution: '' };
	if (to.kind === 'conservation')
		return {
			forbidden: `${to.name} is a conservation line and is kept pure: nothing is crossed into it.`,
			caution: ''
		};
	const cautions: string[] = [];
	for (const [own, other] of [
		[to, from],
		[from, to]
	] as const) {
		const rule = own.rules.neverCrossWith.trim();
		if (!rule) continue;
		if (names(rule, other))
			return {
				forbidden: `The rules of ${own.name} say: never cross with “${rule}”. Whoever looks after the line can change that on its page.`,
				caution: ''
			};
		cautions.push(
			`The rules of ${own.name} say: never cross with “${rule}”. Think first whether that is meant.`
		);
	}
	return { forbidden: '', caution: cautions.join(' ') };
}

function names(rule: string, other: Crossing): boolean {
	const text = plain(rule);
	if (anyLine.test(text)) return true;
	const has = (words: string) => plain(words) !== '' && ` ${text} `.includes(` ${plain(words)} `);
	if (has(other.code) || has(other.name)) return true;
	// "Any other guppy": a word for the kind of fish.
	const kind = /\b(?:any|all|every) others? (.+)$/.exec(text)?.[1]?.split(' ') ?? [];
	const words = plain(`${other.name} ${other.fishGroup} ${other.taxonVerbatim} ${other.taxonTidy}`).split(
		' '
	);
	const singulars = (word: string) => [word, word.replace(/s$/, ''), word.replace(/ies$/, 'y')];
	return kind.some((word) => singulars(word).some((one) => words.includes(one)));
}

/** Letters and figures only, so that "TIDE-1", "tide 1" and "Tide 1." are one. */
function plain(text: string): string {
	return text
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]+/gu, ' ')
		.trim();
}
