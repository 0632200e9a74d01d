import type { Audience, EntryId } from '#records/entry.ts';
import type { DeviceProblemCode } from './problems.ts';
import type { SyncStatus } from './syncStatus.ts';

/** What tabs of one member and club tell each other. */
export type TabMessage =
	/** A tab is here and wants to hear what the leader has. */
	| { readonly type: 'hello' }
	| {
			readonly type: 'update';
			readonly audience: Audience;
			readonly document: string;
			readonly update: Uint8Array;
	  }
	/** Documents or volumes changed: read them again. */
	| { readonly type: 'moved' }
	| {
			readonly type: 'wrote';
			readonly entries: readonly { readonly audience: Audience; readonly text: string }[];
	  }
	/** Entries were taken back or erased. */
	| { readonly type: 'removed'; readonly ids: readonly EntryId[] }
	| { readonly type: 'store-changed' }
	| { readonly type: 'status'; readonly status: Partial<SyncStatus> }
	| { readonly type: 'problem'; readonly code: DeviceProblemCode; readonly present: boolean }
	| { readonly type: 'retry' }
	/** Somebody signs out. */
	| { readonly type: 'wipe' };
