/**
 * Passwords.
 *
 * Model: one argon2id hash for each account (RFC 9106), 19 MiB of memory and two passes for each try, the least that
 * the OWASP Password Storage Cheat Sheet recommends (from memory). Salt and costs stand in the hash itself.
 * Threats answered: a stolen database (each guess costs memory and time); finding out which names exist (a name that
 * is not there is checked against a hash of nothing, at the same cost); one person's guesses filling the memory (the
 * library works on at most four at a time, and tries are counted in attempts.ts).
 */
import { hash, verify } from '@node-rs/argon2';

const costs = { memoryCost: 19 * 1024, timeCost: 2, parallelism: 1 };
const shortest = 10;
/** Longer than any sentence somebody types; keeps one try from being megabytes. */
const longest = 200;

/** Passwords that pass the length but are guessed first. */
const wellKnown =
	/^(.)\1+$|^(0?1234567890*|12345678910|qwertyuiop|password\d*|passwort\d*|letmein\d*|iloveyou\d*)$/i;

/** Whether a new password is long enough and not one of those guessed first. */
export function isStrongEnough(password: string, signInName: string): boolean {
	const plain = password.normalize('NFKC');
	if ([...plain].length < shortest || plain.length > longest) return false;
	if (wellKnown.test(plain)) return false;
	return plain.toLowerCase() !== signInName.normalize('NFKC').toLowerCase();
}

/** The hash to keep of a password, or of a short code. */
export function hashPassword(password: string): Promise<string> {
	return hash(password.normalize('NFKC'), costs);
}

let hashOfNothing: Promise<string> | undefined;

/**
 * Whether the password belongs to the hash. Without a hash (no such account) it takes as long and says no.
 */
export async function isPasswordOf(passwordHash: string | null, password: string): Promise<boolean> {
	// Made once and never changed: a constant that costs too much to make at import time.
	const against = passwordHash ?? (await (hashOfNothing ??= hash('', { ...costs })));
	const right = await verify(against, password.slice(0, longest).normalize('NFKC')).catch(() => false);
	return right && passwordHash !== null;
}
