import type { MemberId } from '#records/entry.ts';
import type { Names } from '#records/kind.ts';

export interface SaidBy {
	/** Who knows it: the one who said it. */
	readonly name: string;
	/** Who typed it for them, as told by phone or in words; '' = themselves. */
	readonly typedBy: string;
}

/** Who said it, and who typed it for them? */
export function saidBy(of: { readonly by: MemberId; readonly toldBy: string | null }, names: Names): SaidBy {
	return of.toldBy
		? { name: toldByName(of.toldBy, names), typedBy: names.member(of.by) }
		: { name: names.member(of.by), typedBy: '' };
}

/** `toldBy` is a member's id or plain words. */
export function toldByName(toldBy: string, names: Names): string {
	const name = names.member(toldBy);
	return name === names.member('') ? toldBy : name;
}

/** "Ana Reef"; "Ana Reef, by phone through Bo Mill": fits after "by". */
export function saidByWords(of: SaidBy): string {
	return of.typedBy ? `${of.name}, by phone through ${of.typedBy}` : of.name;
}
