/** One task of the planning bench in a browser's worker: told its name it makes ready, told 'go' it measures. */
import { loadSolver } from '#workers/solver.ts';
import type { Prepared } from './geneticsMeasure.ts';
import type { Told } from './geneticsWorker.ts';
import { planningTasks } from './planningMeasure.ts';

let prepared: Prepared | null = null;

addEventListener('message', ({ data }: MessageEvent<string>) => void answer(data));

async function answer(asked: string): Promise<void> {
	try {
		if (asked === 'go') return postMessage({ measured: prepared?.run() ?? [] } satisfies Told);
		prepared = planningTasks[asked]!(await loadSolver());
		postMessage({ ready: prepared.on } satisfies Told);
	} catch (error) {
		postMessage({ problem: String(error) } satisfies Told);
	}
}
