import type { MemberId } from '#records/entry.ts';

/** Who asks and when; `by` null = the server itself (opening the club). `at`: ms since 1970. */
export interface Asked {
	readonly by: MemberId | null;
	readonly at: number;
}
