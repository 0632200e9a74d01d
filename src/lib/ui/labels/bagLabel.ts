/**
 * What stands on a bag's label, readable without any device. There is no place for a street, a phone number, a price
 * or a full name: `from` and `to` are room names, handles or codes.
 */
import { fishText } from '#records/fishCount.ts';
import type { Certainty, Fish } from '#records/state.ts';

export interface BagLabelData {
	/** With its check letter: "0417 K". */
	readonly number: string;
	/** The text of the square code; the label says the same in letters. */
	readonly code: string;
	/** Null or '' below: a ruled gap to write in by pencil, as on a label printed before the record exists. */
	readonly lineName: string;
	readonly lineCode: string;
	readonly kind: 'conservation' | 'strain' | null;
	/** In full, never a code alone. */
	readonly locality: string;
	readonly fish: Fish | null;
	readonly certainty?: Certainty;
	/** Date and time of bagging in words. */
	readonly bagged: string;
	readonly from: string;
	/** '' with a known line means "open". */
	readonly to: string;
	/** Lines that help but need not be there: generation, brood date, water, "mated females", quarantine. */
	readonly more?: readonly string[];
}

/**
 * Which words keep a bag from being crossed by mistake?
 */
export function keepPure(label: BagLabelData): string {
	if (label.kind === 'conservation') return 'CONSERVATION LINE – DO NOT CROSS';
	if (label.kind === 'strain') return 'Colour or fin strain';
	return '';
}

/**
 * How is the count written on the label? Young that nobody has sexed in words, so that a newcomer reads it.
 */
export function countWords({ fish, certainty }: BagLabelData): string {
	if (!fish) return '';
	const about = certainty === 'about' ? 'about ' : '';
	const onlyUnsexed = fish.males + fish.females === 0 && fish.unsexed > 0;
	return about + (onlyUnsexed ? `${fish.unsexed} young, not sexed` : fishText(fish));
}

/** Letter sizes in hundredths of the label's width; on a label of 63.5 mm from 10 down to 5.4 points. */
const letterSizes = [5.6, 5.2, 4.9, 4.6, 4.2, 3.8, 3.4, 3] as const;
/** Height left under the number, in the same unit, on a label of 63.5 by 38.1 mm. */
const room = 40;
const lineWidth = 92;
/** Mean width of a letter in relation to its size, with a little to spare (measured on the font). */
const letterWidth = 0.52;
const lineHeight = 1.18;

/**
 * How large may the letters be so that the whole label fits? A label must never cut off its locality.
 *
 * @returns hundredths of the label's width
 */
export function letterSize(label: BagLabelData): number {
	// Gaps are written in by hand and need their height.
	const sizes = label.lineName && label.fish ? letterSizes : letterSizes.filter((size) => size < 5);
	const rows: (readonly [letters: number, scale: number])[] = [
		[label.lineName.length + label.lineCode.length + 1, 1.15],
		[keepPure(label).length, 1],
		[label.locality.length, 1],
		[countWords(label).length * 1.25 + label.bagged.length + 2, 1.25],
		[label.from.length + label.to.length + 12, 1],
		[(label.more ?? []).join(' · ').length, 1]
	];
	const fits = (size: number) => {
		const heights = rows.map(([letters, scale]) => {
			const lines = Math.ceil((letters * letterWidth * size * (scale === 1.25 ? 1 : scale)) / lineWidth);
			return lines * size * scale * lineHeight + (lines > 0 ? 0.8 : 0);
		});
		return heights.reduce((sum, height) => sum + height, 0) <= room;
	};
	return sizes.find(fits) ?? letterSizes[letterSizes.length - 1] ?? 3;
}
