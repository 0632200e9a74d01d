import solverUrl from 'highs/runtime?url';
import type { Progress } from './progress.ts';
import type { FromTaskWorker, ToTaskWorker } from './taskMessage.ts';
import type { TaskAnswer, TaskArgs, TaskName } from './tasks.ts';

/** The person stopped the work, or the page went away: nothing went wrong. */
export class TaskStopped extends Error {
	constructor() {
		super('the work was stopped');
		this.name = 'TaskStopped';
	}
}

export interface RunningTask<Answer> {
	/** Rejects with TaskStopped after `stop`, with an Error when the work failed. */
	readonly answer: Promise<Answer>;
	/** Ends the work at once, wherever it is. */
	stop(): void;
}

/** A worker that has nothing to do waits here: starting one, and the solver in it, takes a moment. */
let idle: Worker | undefined;

/**
 * Start a task: long work in a worker of its own.
 *
 * @param args plain data; it is copied
 * @param hear called as the work goes on, in order
 */
export function startTask<Name extends TaskName>(
	name: Name,
	args: TaskArgs<Name>,
	hear: (progress: Progress) => void = () => {}
): RunningTask<TaskAnswer<Name>> {
	const worker = idle ?? new Worker(new URL('./taskWorker.ts', import.meta.url), { type: 'module' });
	idle = undefined;
	const task = Math.random();
	const ended = new AbortController();
	const { promise, resolve, reject } = Promise.withResolvers<TaskAnswer<Name>>();
	const listening = { signal: ended.signal };
	const rest = () => {
		ended.abort();
		if (idle) worker.terminate();
		else idle = worker;
	};
	const end = (error: Error) => {
		ended.abort();
		worker.terminate();
		reject(error);
	};
	worker.addEventListener(
		'message',
		({ data }: MessageEvent<FromTaskWorker>) => {
			if (data.task !== task) return;
			if (data.type === 'progress') return hear(data.progress);
			if (data.type === 'failure') return end(new Error(data.message));
			rest();
			resolve(data.answer as TaskAnswer<Name>);
		},
		listening
	);
	worker.addEventListener('error', (event) => end(new Error(event.message)), listening);
	worker.postMessage({ task, name, args, solverUrl } satisfies ToTaskWorker);
	return {
		answer: promise,
		stop() {
			if (!ended.signal.aborted) end(new TaskStopped());
		}
	};
}
