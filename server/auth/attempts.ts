/**
 * Counts tries that failed, so that guessing takes for ever. In memory: a restart forgets, which helps nobody who
 * guesses, since the window is short.
 */
import { AppError } from '../appError.ts';

export interface Attempts {
	/** @throws AppError `too-many-tries` when a key has failed too often of late */
	check(keys: readonly AttemptKey[]): void;
	failed(keys: readonly AttemptKey[]): void;
	/** A success clears what stands against the keys. */
	passed(keys: readonly AttemptKey[]): void;
}

/** What is counted: one caller's address, one name or link, or everything of a sort together. */
export type AttemptKey = `${'address' | 'name' | 'all'}:${string}`;

/** Failures allowed in the window. An address may be a whole hall behind one router. */
const allowed = { address: 30, name: 10, all: 300 } as const;
const windowMs = 15 * 60_000;
const mostKeys = 20_000;

/** @param now the clock, ms since 1970 */
export function createAttempts(now: () => number): Attempts {
	const failures = new Map<AttemptKey, { count: number; until: number }>();
	const standing = (key: AttemptKey) => {
		const found = failures.get(key);
		if (found && found.until > now()) return found;
		failures.delete(key);
		return null;
	};
	return {
		check(keys) {
			for (const key of keys) {
				const sort = key.slice(0, key.indexOf(':')) as keyof typeof allowed;
				if ((standing(key)?.count ?? 0) >= allowed[sort]) throw new AppError('too-many-tries', sort);
			}
		},
		failed(keys) {
			for (const key of keys) {
				const found = standing(key);
				if (found) found.count++;
				else failures.set(key, { count: 1, until: now() + windowMs });
			}
			// Oldest first, as a Map keeps them: bounded whatever a flood does.
			for (const key of failures.keys()) {
				if (failures.size <= mostKeys) break;
				failures.delete(key);
			}
		},
		passed(keys) {
			for (const key of keys)
				if (!key.startsWith('all:') && !key.startsWith('address:')) failures.delete(key);
		}
	};
}
