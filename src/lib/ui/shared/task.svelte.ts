import { untrack } from 'svelte';
import { startTask, TaskStopped, type RunningTask } from '#workers/startTask.ts';
import type { TaskAnswer, TaskArgs, TaskName } from '#workers/tasks.ts';

export interface FollowedTask<Value> {
	/** The answer, or the best one so far; undefined until there is one. */
	readonly value: Value | undefined;
	readonly busy: boolean;
	/** Steps done of all. */
	readonly done: number;
	readonly of: number;
	readonly stopped: boolean;
	/** One sentence; '' = none. */
	readonly problem: string;
	stop(): void;
	again(): void;
}

/**
 * Follows long work in a worker of its own. Call it while a component starts, as any rune.
 *
 * It begins by itself, anew only when what it is asked has changed, and ends when the page goes away.
 *
 * @param args read reactively; undefined = nothing to do
 */
export function task<Name extends TaskName>(
	name: Name,
	args: () => TaskArgs<Name> | undefined
): FollowedTask<TaskAnswer<Name>> {
	let value = $state.raw<TaskAnswer<Name>>();
	let busy = $state(false);
	let stopped = $state(false);
	let done = $state(0);
	let of = $state(0);
	let problem = $state('');
	let turn = $state(0);
	let running: RunningTask<TaskAnswer<Name>> | undefined;
	/** Answers come anew each minute: only another text is another question. */
	const text = $derived.by(() => {
		const given = args();
		return given ? JSON.stringify(given) : '';
	});

	$effect(() => {
		// Read, so that "again" runs this anew.
		void turn;
		const given = text ? untrack(args) : undefined;
		value = undefined;
		[stopped, done, of, problem] = [false, 0, 0, ''];
		if (!given) return;
		busy = true;
		const mine = startTask(name, given, (progress) => {
			[done, of] = [progress.done, progress.of];
			if (progress.soFar !== undefined) value = progress.soFar as TaskAnswer<Name>;
		});
		running = mine;
		mine.answer.then(
			(answer) => {
				if (running !== mine) return;
				[value, busy] = [answer, false];
			},
			(error: unknown) => {
				if (running !== mine) return;
				busy = false;
				if (!(error instanceof TaskStopped)) problem = 'This could not be worked out on this device.';
			}
		);
		return () => {
			running = undefined;
			busy = false;
			mine.stop();
		};
	});

	return {
		get value() {
			return value;
		},
		get busy() {
			return busy;
		},
		get done() {
			return done;
		},
		get of() {
			return of;
		},
		get stopped() {
			return stopped;
		},
		get problem() {
			return problem;
		},
		stop() {
			running?.stop();
			[stopped, busy] = [true, false];
		},
		again() {
			turn++;
		}
	};
}
