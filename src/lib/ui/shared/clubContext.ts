import { createContext } from 'svelte';
import type { ClubClient } from '#workers/clubClient.ts';
import type { ClubStatus } from './clubStatus.svelte.ts';
import type { Recorder } from './recorder.svelte.ts';

/** What every screen below a club has at hand. */
export interface ClubAtHand {
	readonly client: ClubClient;
	readonly status: ClubStatus;
	/** Writes, and shows what was written with its undo. */
	readonly recorder: Recorder;
	/** `/c/<club>`, without a slash at the end. */
	readonly base: string;
}

/** `getClub()` in any component below the club's layout; `setClub()` in that layout alone. */
export const [getClub, setClub] = createContext<ClubAtHand>();
