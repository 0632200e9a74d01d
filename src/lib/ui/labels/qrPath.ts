import { create } from 'qrcode';

/**
 * Which square code stands for this text? One SVG path of dark modules, with the quiet zone of four modules that the
 * standard asks for.
 *
 * Source: ISO/IEC 18004, error correction level M, made by the library `qrcode`.
 *
 * @param text at most some 300 characters: a label is small
 * @returns side in modules, quiet zone included, and the path
 * @throws RangeError when the text is empty or too long for a label
 */
export function qrPath(text: string): { readonly size: number; readonly path: string } {
	if (text === '' || text.length > 300) {
		throw new RangeError(`qrPath requires 1 to 300 characters, got ${text.length}`);
	}
	const { modules } = create(text, { errorCorrectionLevel: 'M' });
	const quiet = 4;
	let path = '';
	for (let y = 0; y < modules.size; y++) {
		for (let x = 0; x < modules.size; x++) {
			if (modules.get(y, x)) path += `M${x + quiet} ${y + quiet}h1v1h-1z`;
		}
	}
	return { size: modules.size + 2 * quiet, path };
}
