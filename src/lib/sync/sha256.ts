import { digest } from 'lib0/hash/sha256';

/** SHA-256 in lower-case hex. Browsers keep `crypto.subtle` from pages on plain http, where the slow way must do. */
export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
	const hash = crypto.subtle ? new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)) : digest(bytes);
	return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
