/** Words about bags for screens. */
import { bagNumberText } from '#records/bagNumberText.ts';
import type { BagNeed } from '#club/bags/needsOfBag.ts';
import type { BagRow } from '#club/bags/bagRow.ts';
import type { BagLabelData } from '#ui/labels/bagLabel.ts';
import { dateWords } from '#ui/shared/dateWords.ts';

export const needWords: { readonly [Need in BagNeed]: string } = {
	'two bags with one number': 'Two bags with one number?',
	'said differently': 'Two people say different things',
	'not arrived': 'Not arrived after three days',
	'no number': 'No number on it yet',
	'receiver not known': 'Nobody has said who it is for',
	'rest not filled in': 'The rest can still be filled in',
	'waits for a tap': 'Something waits for one tap',
	'day-7 count': 'How many live, a week later?'
};

/** What a bag is called where there is no label on it. */
export function bagName(row: Pick<BagRow, 'number'>): string {
	return row.number ? `Bag ${bagNumberText(row.number)}` : 'A bag without a number';
}

export function receiverWords(row: Pick<BagRow, 'to'>): string {
	if (row.to.name) return row.to.sort === 'outside' ? `${row.to.name}, outside the club` : row.to.name;
	return { room: 'a room', guest: 'a guest', outside: 'outside the club', open: 'not known yet' }[
		row.to.sort
	];
}

/** The label of a bag; its square code is the address of the bag's page. */
export function labelOf(row: BagRow, pageOfBags: string, now: Date): BagLabelData {
	return {
		number: row.number ? bagNumberText(row.number) : 'no number',
		code: `${pageOfBags}/${row.number || row.id}`,
		lineName: row.line?.name ?? '',
		lineCode: row.line?.code ?? '',
		kind: row.line?.kind ?? null,
		locality: row.line?.locality ?? '',
		fish: row.fish,
		bagged: row.bagged ? dateWords(row.bagged, now) : '',
		from: row.from?.name ?? '',
		to: row.to.sort === 'open' ? '' : receiverWords(row)
	};
}

/** A label to be written on by hand. */
export function blankLabel(number: string, pageOfBags: string): BagLabelData {
	return {
		number: bagNumberText(number),
		code: `${pageOfBags}/${number}`,
		...{ lineName: '', lineCode: '', kind: null, locality: '', fish: null, bagged: '', from: '', to: '' }
	};
}
