/** One task of the genetics bench in a browser's worker: told its name it makes ready, told 'go' it measures. */
import { tasks, type Measured, type Prepared } from './geneticsMeasure.ts';

export type Told =
	{ readonly ready: string } | { readonly measured: readonly Measured[] } | { readonly problem: string };

let prepared: Prepared | null = null;

addEventListener('message', ({ data }: MessageEvent<string>) => {
	try {
		if (data === 'go') postMessage({ measured: prepared?.run() ?? [] } satisfies Told);
		else {
			prepared = tasks[data]!();
			postMessage({ ready: prepared.on } satisfies Told);
		}
	} catch (error) {
		// Memory that the browser refuses comes as an error: it is told, and the figure is none.
		postMessage({ problem: String(error) } satisfies Told);
	}
});
