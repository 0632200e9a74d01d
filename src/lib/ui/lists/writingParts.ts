import type { Draft } from '#records/entry.ts';
import { limits } from '#protocol/limits.ts';

/** Room for the envelope that the device adds to a draft. */
const envelopeBytes = 400;
/** Each entry of a writing names all of them, with quotes and a comma. */
const idBytes = 39;

/**
 * Splits a long list into writings that are each shared in one go: few enough entries, and small enough together.
 * A row that is too large by itself stands alone; the device then says what is wrong with it.
 */
export function writingParts<Written extends { readonly draft: Draft }>(
	drafts: readonly Written[]
): Written[][] {
	const text = new TextEncoder();
	const parts: Written[][] = [];
	let part: Written[] = [];
	let bytes = 0;
	for (const each of drafts) {
		const size =
			text.encode(JSON.stringify(each.draft)).length + envelopeBytes + limits.maxTogether * idBytes;
		const full = part.length === limits.maxTogether || bytes + size > limits.maxUnansweredBytes;
		if (full && part.length) {
			parts.push(part);
			part = [];
			bytes = 0;
		}
		part.push(each);
		bytes += size;
	}
	return part.length ? [...parts, part] : parts;
}
