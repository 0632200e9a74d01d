/**
 * Entries of one writing are accepted in one commit or not at all. A device sends them in one update. If only a part
 * has come, nothing of the writing and of what follows in its log is taken, and the device is asked to send that log
 * from there; if the rest is still missing then, or the device had sent all it has, the writing is refused by id, so
 * that the device goes on without it. Nothing waits in memory.
 */
import { limits } from '#protocol/limits.ts';
import type { Verdict } from './guard.ts';

export type Take = Extract<Verdict, { verdict: 'take' }>;

export interface Sorted {
	readonly complete: readonly Take[];
	/** Of writings that lack a part, in log order, with what follows them. */
	readonly waiting: readonly Take[];
	/** Of these, the entries that themselves lack a part. */
	readonly broken: readonly Take[];
}

/** @param isKnown whether the club has this entry already (or had, and erased it) */
export function sortTogether(takes: readonly Take[], isKnown: (id: string) => boolean): Sorted {
	let complete = takes;
	const waiting: Take[] = [];
	const broken: Take[] = [];
	for (;;) {
		const present = new Set(complete.map(({ entry }) => entry.id));
		const stopped = new Set<number>();
		const kept: Take[] = [];
		for (const take of complete) {
			const { together } = take.entry;
			const lacks =
				together.length > limits.maxTogether || together.some((id) => !present.has(id) && !isKnown(id));
			if (lacks) broken.push(take);
			if (lacks || stopped.has(take.struct.client)) {
				stopped.add(take.struct.client);
				waiting.push(take);
			} else kept.push(take);
		}
		complete = kept;
		if (stopped.size === 0) return { complete, waiting, broken };
	}
}
