/** Plan B of the plan on the screen, worked out in the background and kept, so that it is there without a signal. */
import { untrack } from 'svelte';
import type { PlanBAnswer } from '#planning/season/planB.ts';
import type { SeasonProblem } from '#planning/season/season.ts';
import { task, type FollowedTask } from '#ui/shared/task.svelte.ts';

export interface KeptPlanB {
	/** What was asked, as a short sum: the same plan of the same record has the same. */
	readonly of: string;
	readonly answers: readonly PlanBAnswer[];
	/** The solver has looked at all of them. */
	readonly isDone: boolean;
}
export interface PlanToKeep {
	readonly problem: SeasonProblem;
	/** Bags of the plan. */
	readonly keys: readonly string[];
}
export interface FollowedPlanB {
	/** Those for the plan as it stands; empty = not yet. */
	readonly answers: readonly PlanBAnswer[];
	readonly work: FollowedTask<unknown>;
}

/** Seconds for each bag and room; most take a tenth of one, since all else stays. */
const seconds = 2;

/**
 * Follows plan B of a plan. Call it while a component starts, as any rune.
 *
 * @param plan read reactively; undefined = no plan yet, or still being looked for
 * @param kept what was kept before
 * @param keep called whenever there is more to keep
 */
export function followPlanB(
	plan: () => PlanToKeep | undefined,
	kept: () => KeptPlanB | null,
	keep: (found: KeptPlanB) => void
): FollowedPlanB {
	const asked = $derived.by(() => {
		const given = plan();
		if (!given || given.keys.length === 0) return undefined;
		const keys = given.keys.toSorted();
		return { problem: given.problem, keys, of: shortSum(JSON.stringify([given.problem, keys])) };
	});
	const isDone = $derived(asked !== undefined && kept()?.of === asked.of && kept()!.isDone);
	const work = task('planB', () =>
		asked && !isDone ? { problem: asked.problem, keys: asked.keys, seconds } : undefined
	);
	$effect(() => {
		const { value, busy, stopped } = work;
		if (!value || !asked) return;
		const found = { of: asked.of, answers: value.answers, isDone: !busy && !stopped };
		// What keeping reads and writes must not begin this anew.
		untrack(() => keep(found));
	});
	return {
		get answers() {
			const now = kept();
			return now && now.of === asked?.of ? now.answers : [];
		},
		work
	};
}

/** FNV-1a of 32 bits and the length: tells a changed plan from the same one; nothing hangs on it but work done anew. */
function shortSum(text: string): string {
	let sum = 0x811c9dc5;
	for (let i = 0; i < text.length; i++) sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193);
	return `${text.length}.${(sum >>> 0).toString(36)}`;
}
