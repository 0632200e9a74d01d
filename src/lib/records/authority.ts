/**
 * Memberships, roles and rooms' keepers, as the server's entries give them: the only ground for verdicts beside the
 * entries' own rooms and earlier holdings (SPEC R20 to R24). Facts ask about a time, decisions about a row number.
 */
import type { Entry, MemberId, Stamp, ThingId } from './entry.ts';
import type { RoleName } from './state.ts';

/** A fact is judged at a time (n = null), a decision at its row number. */
export interface Moment {
	readonly n: number | null;
	readonly time: number;
}

interface Change {
	readonly n: number;
	readonly time: number;
	readonly on: boolean;
}

type Part = RoleName | 'keeper' | 'member';

/** What a member may do and when, part by part: the room kept, the line coordinated ('' = the whole club). */
export class MemberRights {
	readonly member = new Map<ThingId, Change[]>();
	readonly keeper = new Map<ThingId, Change[]>();
	readonly officer = new Map<ThingId, Change[]>();
	readonly coordinator = new Map<ThingId, Change[]>();
	readonly deputy = new Map<ThingId, Change[]>();
	readonly runner = new Map<ThingId, Change[]>();
}

/** Whose rights were changed, and which of their entries may have to be judged again. */
export interface Shift {
	readonly rights: MemberRights;
	/** The room, where keepers changed. */
	readonly room: ThingId | null;
	/** Nothing that counts can stop counting by it. */
	readonly onlyGives: boolean;
	/** Nothing that is judged at an earlier moment is touched; null = all may be. */
	readonly from: { readonly n: number; readonly time: number } | null;
}

/** What is read of a server's entry. */
interface ServerWord {
	readonly entry: Entry;
	readonly body: unknown;
	readonly problem: string;
	readonly stamp: Stamp | null;
}

const nobody: readonly Shift[] = [];

export class Authority {
	readonly #rights = new Map<MemberId, MemberRights>();
	readonly #keepersOf = new Map<ThingId, Set<MemberRights>>();
	readonly #firstRemoval = new Map<ThingId, number>();

	of(member: MemberId): MemberRights {
		const known = this.#rights.get(member);
		if (known) return known;
		const made = new MemberRights();
		this.#rights.set(member, made);
		return made;
	}

	/** Takes in a server's entry; tells whose rights it touches. */
	take({ entry, body, problem, stamp }: ServerWord): readonly Shift[] {
		if (entry.by !== 'club' || problem !== '' || !stamp) return nobody;
		const words = body as { member?: string; role?: RoleName; of?: string | null; room?: string };
		const { member = '', room = '', role = 'runner' } = words;
		const { n, time } = stamp;
		switch (entry.kind) {
			case 'club/memberJoined':
				return this.#put('member', '', member, { n, time, on: true });
			case 'club/memberLeft':
				return this.#put('member', '', member, { n, time, on: false });
			case 'club/roleGiven':
				return this.#put(role, words.of ?? '', member, { n, time, on: true });
			case 'club/roleEnded':
				return this.#put(role, words.of ?? '', member, { n, time, on: false });
			case 'club/keeperAdded':
				this.#noteKeeper(room, member);
				return this.#put('keeper', room, member, { n, time, on: true });
			case 'club/keeperRemoved':
				this.#noteKeeper(room, member);
				return [...this.#put('keeper', room, member, { n, time, on: false }), ...this.#noteRemoval(room, n)];
			default:
				return nobody;
		}
	}

	/** Whether the member keeps the room at that time; the first keepers also before the record began (SPEC R22). */
	keeps(rights: MemberRights, room: ThingId, at: Moment): boolean {
		const changes = rights.keeper.get(room);
		if (!changes) return false;
		return isOn(changes, at, this.#reachesBack(changes, room)) && !this.#hasLeft(rights, at);
	}

	hasRole(rights: MemberRights, role: RoleName, of: ThingId | null, at: Moment): boolean {
		if (rights[role].size === 0) return false;
		const changes = rights[role].get(of ?? '');
		return changes !== undefined && isOn(changes, at, true) && !this.#hasLeft(rights, at);
	}

	#hasLeft(rights: MemberRights, at: Moment): boolean {
		const changes = rights.member.get('');
		return changes !== undefined && !isOn(changes, at, true);
	}

	#reachesBack(changes: readonly Change[], room: ThingId): boolean {
		const first = changes[0];
		return first !== undefined && first.n < (this.#firstRemoval.get(room) ?? Infinity);
	}

	#noteKeeper(room: ThingId, member: MemberId): void {
		const keepers = this.#keepersOf.get(room);
		if (keepers) keepers.add(this.of(member));
		else this.#keepersOf.set(room, new Set([this.of(member)]));
	}

	/** Keepers who came before the first removal reach back; a removal that is earlier than that ends it for some. */
	#noteRemoval(room: ThingId, n: number): Shift[] {
		const before = this.#firstRemoval.get(room) ?? Infinity;
		if (n >= before) return [];
		const reached = [...(this.#keepersOf.get(room) ?? [])].filter((rights) =>
			this.#reachesBack(rights.keeper.get(room) ?? [], room)
		);
		this.#firstRemoval.set(room, n);
		return reached
			.filter((rights) => !this.#reachesBack(rights.keeper.get(room) ?? [], room))
			.map((rights) => ({ rights, room, onlyGives: false, from: null }));
	}

	#put(part: Part, of: ThingId, member: MemberId, change: Change): readonly Shift[] {
		const rights = this.of(member);
		const changes = rights[part].get(of) ?? [];
		if (changes.some((known) => known.n === change.n)) return nobody;
		const last = changes.at(-1);
		// Behind all others in number and time, it says nothing of what was before; the first may reach back.
		const isLatest = last !== undefined && last.n < change.n && last.time <= change.time;
		changes.push(change);
		changes.sort((a, b) => a.n - b.n);
		rights[part].set(of, changes);
		const areTimesInOrder = changes.every((one, i) => one.time >= (changes[i - 1]?.time ?? -Infinity));
		return [
			{
				rights,
				room: part === 'keeper' ? of : null,
				// Who was never said to have joined has not left; who has, had not yet joined before.
				onlyGives: change.on && part !== 'member' && areTimesInOrder,
				from: isLatest ? { n: change.n, time: change.time } : null
			}
		];
	}
}

function isOn(changes: readonly Change[], at: Moment, reachesBack: boolean): boolean {
	let on = reachesBack && at.n === null;
	for (const change of changes) {
		if (at.n !== null ? change.n >= at.n : change.time > at.time) break;
		on = change.on;
	}
	return on;
}
