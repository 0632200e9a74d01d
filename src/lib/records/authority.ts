/**
 * Memberships, roles and rooms' keepers, as the server's entries give them: the only ground for verdicts beside the
 * entries' own rooms and earlier holdings (SPEC R20 to R24). Facts ask about a time, decisions about a row number.
 */
import type { MemberId, ThingId } from './entry.ts';
import type { Item } from './item.ts';
import type { RoleName } from './state.ts';

type Part = RoleName | 'keeper' | 'member';

interface Change {
	readonly n: number;
	readonly time: number;
	readonly on: boolean;
}

export class Authority {
	/** Role (or `keeper`, or `member`) -> line, meeting or room ('' for the whole club) -> member -> changes by number. */
	readonly #changes = new Map<Part, Map<ThingId, Map<MemberId, Change[]>>>();
	/** Members and rooms with anything at all, to list roles of a member. */
	readonly #roomsOf = new Map<MemberId, Set<ThingId>>();
	readonly #firstRemoval = new Map<ThingId, number>();

	/** Takes in a server entry; returns the members whose rights it touches. */
	take(item: Item): readonly MemberId[] {
		const stamp = item.stamp;
		if (item.entry.by !== 'club' || item.problem !== '' || !stamp) return [];
		const body = item.body as { member?: string; role?: RoleName; of?: string | null; room?: string };
		const { member = '', room = '', role = 'runner' } = body;
		const of = body.of ?? '';
		const change = { n: stamp.n, time: stamp.time };
		switch (item.entry.kind) {
			case 'club/memberJoined':
				this.#put('member', '', member, { ...change, on: true });
				return [member];
			case 'club/memberLeft':
				this.#put('member', '', member, { ...change, on: false });
				return [member];
			case 'club/roleGiven':
				this.#put(role, of, member, { ...change, on: true });
				return [member];
			case 'club/roleEnded':
				this.#put(role, of, member, { ...change, on: false });
				return [member];
			case 'club/keeperAdded':
				this.#put('keeper', room, member, { ...change, on: true });
				this.#roomsOf.set(member, (this.#roomsOf.get(member) ?? new Set()).add(room));
				return [member];
			case 'club/keeperRemoved': {
				this.#put('keeper', room, member, { ...change, on: false });
				this.#firstRemoval.set(room, Math.min(change.n, this.#firstRemoval.get(room) ?? Infinity));
				return [...this.#roomsOf.keys()];
			}
			default:
				return [];
		}
	}

	/** Whether the member keeps the room at that time; the first keepers also before the record began (SPEC R22). */
	keeps(member: MemberId, room: ThingId, at: Moment): boolean {
		const changes = this.#of('keeper', room, member);
		const first = changes?.[0];
		const reachesBack = first !== undefined && first.n < (this.#firstRemoval.get(room) ?? Infinity);
		return this.#holds(changes, at, reachesBack) && !this.#hasLeft(member, at);
	}

	hasRole(member: MemberId, role: RoleName, of: ThingId | null, at: Moment): boolean {
		return this.#holds(this.#of(role, of ?? '', member), at, true) && !this.#hasLeft(member, at);
	}

	#hasLeft(member: MemberId, at: Moment): boolean {
		const changes = this.#of('member', '', member);
		return changes !== undefined && !this.#holds(changes, at, true);
	}

	#of(part: Part, of: ThingId, member: MemberId): readonly Change[] | undefined {
		return this.#changes.get(part)?.get(of)?.get(member);
	}

	#holds(changes: readonly Change[] | undefined, at: Moment, reachesBack: boolean): boolean {
		if (!changes) return false;
		let on = reachesBack && at.n === null;
		for (const change of changes) {
			if (at.n !== null ? change.n >= at.n : change.time > at.time) break;
			on = change.on;
		}
		return on;
	}

	#put(part: Part, of: ThingId, member: MemberId, change: Change): void {
		const byThing = this.#changes.get(part) ?? new Map<ThingId, Map<MemberId, Change[]>>();
		const byMember = byThing.get(of) ?? new Map<MemberId, Change[]>();
		const changes = byMember.get(member) ?? [];
		if (changes.some((known) => known.n === change.n)) return;
		changes.push(change);
		changes.sort((a, b) => a.n - b.n);
		this.#changes.set(part, byThing.set(of, byMember.set(member, changes)));
	}
}

/** A fact is judged at a time (n = null), a decision at its row number. */
export interface Moment {
	readonly n: number | null;
	readonly time: number;
}
