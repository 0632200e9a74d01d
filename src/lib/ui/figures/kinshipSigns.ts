/** How a cell of the kinship table looks: a letter and a shade for each step; the letter says it, the shade helps. */
import type { KinshipWords } from '#genetics/words/kinshipWords.ts';

export interface KinshipSign {
	/** Short, for the cell. */
	readonly letter: string;
	/** For the key. */
	readonly words: string;
	/** Share of the accent in the ground, in per cent. */
	readonly shade: number;
}

export const kinshipSigns: Readonly<Record<KinshipWords['step'], KinshipSign>> = {
	closer: { letter: 'C', words: 'closer than brother and sister', shade: 46 },
	siblings: { letter: 'S', words: 'as brother and sister', shade: 34 },
	halfSiblings: { letter: 'H', words: 'as half brother and half sister', shade: 24 },
	cousins: { letter: 'K', words: 'as cousins', shade: 14 },
	distant: { letter: 'F', words: 'further apart than cousins', shade: 6 },
	none: { letter: '–', words: 'not related as far as we know', shade: 0 },
	notKnown: { letter: '?', words: 'not known', shade: 0 }
};
export const kinshipSteps = Object.keys(kinshipSigns) as KinshipWords['step'][];

/** Up to so many groups the whole table is in the page, and fits a sheet of paper. */
export const mostWhole = 50;

/** Whether the record leaves so much open that another figure could stand there. */
export function isOpen({ least, greatest }: { readonly least: number; readonly greatest: number }): boolean {
	return greatest - least >= 0.02;
}

/** ".13"; '' where there is nothing to say by a number. */
export function cellFigure(step: KinshipWords['step'], expected: number): string {
	return step === 'none' || step === 'notKnown' ? '' : expected.toFixed(2).replace(/^0/, '');
}
