/** What a page and its task worker say to each other. */
import type { Progress } from './progress.ts';

export interface ToTaskWorker {
	readonly task: number;
	readonly name: string;
	readonly args: unknown;
	/** Where the page's build has put the solver. */
	readonly solverUrl: string;
}

export type FromTaskWorker =
	| { readonly type: 'progress'; readonly task: number; readonly progress: Progress }
	| { readonly type: 'answer'; readonly task: number; readonly answer: unknown }
	| { readonly type: 'failure'; readonly task: number; readonly message: string };
