/** Secrets that are carried about: links, cookies, codes. The database holds only what `hashToken` makes of them. */
import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';

/** A secret nobody can guess: 192 random bits, safe in an address. */
export function newToken(): string {
	return randomBytes(24).toString('base64url');
}

/** SHA-256 is enough for a token that is random already; a code that a person types needs `hashPassword`. */
export function hashToken(token: string): string {
	return createHash('sha256').update(token).digest('base64url');
}

/** Compares in a time that does not tell how much of it was right. */
export function isSameHash(left: string, right: string): boolean {
	const [a, b] = [Buffer.from(left), Buffer.from(right)];
	return a.length === b.length && timingSafeEqual(a, b);
}

/** Twelve digits in three groups: easy to say on the phone, typed on a number pad. */
export function newCode(): string {
	const digits = String(randomInt(0, 10 ** 12)).padStart(12, '0');
	return `${digits.slice(0, 4)} ${digits.slice(4, 8)} ${digits.slice(8)}`;
}

/** The twelve digits of a code however it was typed, or null when they are not twelve. */
export function readCode(typed: string): string | null {
	const digits = typed.normalize('NFKC').replace(/[\s.\-–—]/g, '');
	return /^\d{12}$/.test(digits) ? digits : null;
}
