/** What a screen can know about sharing; the same in every tab. */
import type { Audience, EntryId } from '#records/entry.ts';
import type { RefusalReason } from '#protocol/messages.ts';
import { deviceProblem, type DeviceProblem, type DeviceProblemCode } from './problems.ts';

export interface UnsharedNote {
	readonly id: EntryId;
	readonly audience: Audience;
	/** `device`: only on this device. `refused`: a person has to look. */
	readonly state: 'device' | 'refused';
	readonly reason?: RefusalReason;
	/** It is on its way to the club and cannot be taken back any more. */
	readonly sending: boolean;
}

export interface StorageStatus {
	/**
	 * The browser has promised not to throw the data away by itself; `null` = it does not say. A private window never
	 * promises it; nothing else tells one apart (Chromium gives both the same quota).
	 */
	readonly persisted: boolean | null;
	readonly usedBytes: number | null;
	readonly quotaBytes: number | null;
	/** The browser has thrown away what was here before. */
	readonly evicted: boolean;
}

export interface SyncStatus {
	/** What the browser says about the network. */
	readonly online: boolean;
	/** The club's ledger is connected and has said what it has. */
	readonly connected: boolean;
	/** This tab holds the documents and the socket. */
	readonly leader: boolean;
	readonly unshared: readonly UnsharedNote[];
	/** ms since 1970 by this device's clock; `null` = never. */
	readonly lastSharedAt: number | null;
	/** When the record was last known to be the club's; ms since 1970 by this device's clock. */
	readonly lastCaughtUpAt: number | null;
	/** The gravest problem, and all of them. */
	readonly problem: DeviceProblem | null;
	readonly problems: readonly DeviceProblem[];
	readonly storage: StorageStatus;
	readonly appNeedsSignIn: boolean;
	/** The server's clock minus this device's, ms; `null` = not heard yet. */
	readonly serverTimeOffset: number | null;
	/** Others' entries that this device holds and the club has lost. */
	readonly aside: number;
}

export const statusAtStart: SyncStatus = {
	online: true,
	connected: false,
	leader: false,
	unshared: [],
	lastSharedAt: null,
	lastCaughtUpAt: null,
	problem: null,
	problems: [],
	storage: { persisted: null, usedBytes: null, quotaBytes: null, evicted: false },
	appNeedsSignIn: false,
	serverTimeOffset: null,
	aside: 0
};

/** Gravest first: what a person wrote comes before what can be fetched again. */
const gravity: readonly DeviceProblemCode[] = [
	'storage-full',
	'storage-failed',
	'storage-put-back',
	'storage-evicted',
	'broken-rules',
	'app-too-old',
	'signed-out',
	'not-allowed',
	'no-audience',
	'aside',
	'volume-damaged',
	'clock-wrong'
];

export class StatusBoard {
	#status: SyncStatus = statusAtStart;
	readonly #problems = new Set<DeviceProblemCode>();
	readonly #tell: (status: SyncStatus) => void;

	constructor(tell: (status: SyncStatus) => void) {
		this.#tell = tell;
	}

	get current(): SyncStatus {
		return this.#status;
	}

	set(change: Partial<Omit<SyncStatus, 'problem' | 'problems'>>): void {
		this.#status = { ...this.#status, ...change };
		this.#tell(this.#status);
	}

	problem(code: DeviceProblemCode, present: boolean): void {
		if (this.#problems.has(code) === present) return;
		if (present) this.#problems.add(code);
		else this.#problems.delete(code);
		const problems = gravity.filter((one) => this.#problems.has(one)).map(deviceProblem);
		this.#status = { ...this.#status, problems, problem: problems[0] ?? null };
		this.#tell(this.#status);
	}
}
