/** Where founders came from, as a name to compare: fish of one source may be related. */
import type { Group } from '#records/state.ts';

/** The same for names that differ in capitals and spaces only; '' = not said. */
export function sourceName(source: string): string {
	return source.trim().toLowerCase().replace(/\s+/g, ' ');
}
export function sourceOf({ origin }: Group): string {
	return origin.from === 'founders' ? sourceName(origin.source) : '';
}
/** Whether founders are, or are taken to be, brothers and sisters. */
export function isFromOneBrood({ origin }: Group): boolean {
	return origin.from === 'founders' && origin.related !== 'unrelated';
}
