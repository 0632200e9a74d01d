/** The worker that long work runs in; see tasks.ts. */
import { solverIsAt } from './solver.ts';
import type { FromTaskWorker, ToTaskWorker } from './taskMessage.ts';
import { tasks, type Task } from './tasks.ts';

const tell = (message: FromTaskWorker) => globalThis.self.postMessage(message);

globalThis.self.addEventListener('message', (event: MessageEvent<ToTaskWorker>) => void run(event.data));

async function run({ task, name, args, solverUrl }: ToTaskWorker): Promise<void> {
	try {
		solverIsAt(solverUrl);
		if (!Object.hasOwn(tasks, name)) throw new RangeError(`a task is called by its name, got ${name}`);
		const work = (tasks as Readonly<Record<string, Task>>)[name]!;
		const answer = await work(args as never, (progress) => tell({ type: 'progress', task, progress }));
		tell({ type: 'answer', task, answer });
	} catch (error) {
		tell({ type: 'failure', task, message: String(error) });
	}
}
