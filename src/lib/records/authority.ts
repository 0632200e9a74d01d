/**
 * Memberships, roles and rooms' keepers, as the server's entries give them: the only ground for verdicts beside the
 * entries' own rooms and earlier holdings (SPEC R20 to R24). Facts ask about a time, decisions about a row number.
 */
import type { MemberId, ThingId } from './entry.ts';
import type { Item } from './item.ts';
import type { RoleName } from './state.ts';

interface Change {
	readonly n: number;
	readonly time: number;
	readonly on: boolean;
}

export class Authority {
	readonly #changes = new Map<string, Change[]>();
	/** Members and rooms with anything at all, to list roles of a member. */
	readonly #roomsOf = new Map<MemberId, Set<ThingId>>();
	readonly #firstRemoval = new Map<ThingId, number>();

	/** Takes in a server entry; returns the members whose rights it touches. */
	take(item: Item): readonly MemberId[] {
		const stamp = item.stamp;
		if (item.entry.by !== 'club' || item.problem !== '' || !stamp) return [];
		const body = item.body as { member?: string; role?: RoleName; of?: string | null; room?: string };
		const member = body.member ?? '';
		const change = { n: stamp.n, time: stamp.time };
		switch (item.entry.kind) {
			case 'club/memberJoined':
				this.#put(`member|${member}`, { ...change, on: true });
				return [member];
			case 'club/memberLeft':
				this.#put(`member|${member}`, { ...change, on: false });
				return [member];
			case 'club/roleGiven':
				this.#put(`${body.role}|${body.of ?? ''}|${member}`, { ...change, on: true });
				return [member];
			case 'club/roleEnded':
				this.#put(`${body.role}|${body.of ?? ''}|${member}`, { ...change, on: false });
				return [member];
			case 'club/keeperAdded':
				this.#put(`keeper|${body.room}|${member}`, { ...change, on: true });
				this.#roomsOf.set(member, (this.#roomsOf.get(member) ?? new Set()).add(body.room ?? ''));
				return [member];
			case 'club/keeperRemoved': {
				this.#put(`keeper|${body.room}|${member}`, { ...change, on: false });
				const room = body.room ?? '';
				this.#firstRemoval.set(room, Math.min(change.n, this.#firstRemoval.get(room) ?? Infinity));
				return [...this.#roomsOf.keys()];
			}
			default:
				return [];
		}
	}

	/** Whether the member keeps the room at that time; the first keepers also before the record began (SPEC R22). */
	keeps(member: MemberId, room: ThingId, at: Moment): boolean {
		const key = `keeper|${room}|${member}`;
		const first = this.#changes.get(key)?.[0];
		const reachesBack = first !== undefined && first.n < (this.#firstRemoval.get(room) ?? Infinity);
		return this.#holds(key, at, reachesBack) && !this.#hasLeft(member, at);
	}

	hasRole(member: MemberId, role: RoleName, of: ThingId | null, at: Moment): boolean {
		return this.#holds(`${role}|${of ?? ''}|${member}`, at, true) && !this.#hasLeft(member, at);
	}

	#hasLeft(member: MemberId, at: Moment): boolean {
		const changes = this.#changes.get(`member|${member}`);
		return changes !== undefined && !this.#holds(`member|${member}`, at, true);
	}

	#holds(key: string, at: Moment, reachesBack: boolean): boolean {
		const changes = this.#changes.get(key);
		if (!changes) return false;
		let on = reachesBack && at.n === null;
		for (const change of changes) {
			if (at.n !== null ? change.n >= at.n : change.time > at.time) break;
			on = change.on;
		}
		return on;
	}

	#put(key: string, change: Change): void {
		const changes = this.#changes.get(key) ?? [];
		if (changes.some((known) => known.n === change.n)) return;
		changes.push(change);
		changes.sort((a, b) => a.n - b.n);
		this.#changes.set(key, changes);
	}
}

/** A fact is judged at a time (n = null), a decision at its row number. */
export interface Moment {
	readonly n: number | null;
	readonly time: number;
}
