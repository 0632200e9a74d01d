/**
 * What stands on a bag's label, readable without any device. There is no place for a street, a phone number, a price
 * or a full name: `from` and `to` are room names, handles or codes.
 */
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
 * Is the text so long that the label needs smaller letters? A label must never cut off its locality.
 */
export function letterSize(label: BagLabelData): 'usual' | 'small' | 'smallest' {
	const rows = [label.lineName, label.locality, `${label.from}${label.to}`, label.more?.join(' · ') ?? ''];
	const lines = rows.reduce((sum, row) => sum + Math.max(1, Math.ceil(row.length / 34)), 0);
	if (lines > 7) return 'smallest';
	return lines > 5 ? 'small' : 'usual';
}
