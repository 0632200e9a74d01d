/** What a page and its club worker say to each other. */
import type { Audience, DeviceId, Draft, Entry, EntryId, MemberId } from '#records/entry.ts';
import type { DeviceProblem, DeviceProblemCode } from '#sync/problems.ts';
import type { UndoResult } from '#sync/deviceStore.ts';
import type { SyncStatus } from '#sync/syncStatus.ts';

export interface OpenPlace {
	readonly club: string;
	readonly member: MemberId;
	readonly device: DeviceId;
	readonly serverUrl: string;
}

/** Calls and what they give back. */
export interface WorkerCalls {
	open: { args: OpenPlace & { readonly hadStore: boolean; readonly online: boolean }; result: void };
	write: { args: { readonly drafts: readonly Draft[]; readonly audience: Audience }; result: Entry[] };
	ask: { args: { readonly name: string; readonly args: unknown }; result: unknown };
	undo: { args: EntryId; result: UndoResult };
	exportUnshared: { args: undefined; result: string };
	importFile: { args: string; result: { added: number; aside: number; unreadable: number } };
	bringAside: { args: undefined; result: { brought: number; left: number } };
	wipe: { args: { readonly evenUnshared: boolean }; result: { gone: boolean; unshared: number } };
	close: { args: undefined; result: void };
}
export type WorkerCallName = keyof WorkerCalls;

export type ToWorker =
	| { readonly type: 'call'; readonly call: number; readonly name: WorkerCallName; readonly args: unknown }
	| {
			readonly type: 'subscribe';
			readonly subscription: number;
			readonly name: string;
			readonly args: unknown;
	  }
	| { readonly type: 'stop'; readonly subscription: number }
	| { readonly type: 'online'; readonly online: boolean }
	| { readonly type: 'retry' }
	| { readonly type: 'dismiss'; readonly code: DeviceProblemCode };

export type FromWorker =
	| { readonly type: 'result'; readonly call: number; readonly value: unknown }
	| {
			readonly type: 'failure';
			readonly call: number;
			readonly problem: DeviceProblem | null;
			readonly message: string;
	  }
	| { readonly type: 'answer'; readonly subscription: number; readonly value: unknown }
	| { readonly type: 'answer-failed'; readonly subscription: number; readonly message: string }
	| { readonly type: 'status'; readonly status: SyncStatus }
	/** Another tab signed out: everything is closed here. */
	| { readonly type: 'wiped' };
