/** The demo club's time: what happens when, who writes it down, with ids and words of that moment. */
import type { DeviceId, Entry, EntryId, MemberId } from '#records/entry.ts';
import type { Kind } from '#records/kind.ts';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import { createDice, type Dice } from './dice.ts';
import { members, rooms, type MemberKey, type RoomKey } from './names.ts';
import type { ClubFact, Scenario, ScenarioEntry, ScenarioMember, ScenarioRoom } from './scenario.ts';

export const dayMs = 86_400_000;
const hourMs = 3_600_000;
const minuteMs = 60_000;
export const monthMs = 30.4375 * dayMs;
/** Nothing is written in the last hours, so that every writing lies in the past. */
const quietMs = 2 * hourMs;
const numbersPerBlock = 50;
const firstNumber = 101;

export interface Writing {
	readonly by: MemberId;
	readonly device?: DeviceId;
	/** As written; left out = the moment of writing. */
	readonly happened?: string;
	readonly toldBy?: MemberId;
	readonly corrects?: readonly EntryId[];
	readonly audience?: ScenarioEntry['audience'];
	/** Hours until the device had signal again. */
	readonly offlineHours?: number;
}

/** `happened` as a day, or as "about" that day or month. */
export const dayOf = (time: number) => new Date(time).toISOString().slice(0, 10);
export const aboutDay = (time: number) => `${dayOf(time)}~`;
export const aboutMonth = (time: number) => `${dayOf(time).slice(0, 7)}~`;

type FactWords = ClubFact extends infer Fact ? (Fact extends ClubFact ? Omit<Fact, 'at'> : never) : never;

export class World {
	readonly dice: Dice;
	readonly now: number;
	readonly start: number;
	readonly clubId: string;
	readonly members: readonly ScenarioMember[];
	readonly rooms: readonly ScenarioRoom[];
	readonly entries: ScenarioEntry[] = [];
	readonly facts: ClubFact[] = [];
	readonly numberBlocks: Scenario['numberBlocks'][number][] = [];
	time: number;
	readonly #keepers = new Map<RoomKey, MemberId[]>();
	readonly #numbers = new Map<DeviceId, { next: number; last: number }>();
	readonly #due: { time: number; place: number; act: () => void }[] = [];
	#places = 0;
	#ids = 0;

	constructor(seed: number, now: number) {
		this.dice = createDice(seed);
		this.now = now;
		const start = new Date(now);
		start.setUTCFullYear(start.getUTCFullYear() - 3);
		this.start = start.getTime();
		this.time = this.start;
		this.clubId = this.newId();
		this.members = members.map(({ key, name }) => ({
			...{ id: this.newId(), key, name },
			devices: [this.newId(), this.newId()]
		}));
		this.rooms = rooms.map(({ key, name, region, house }) => ({
			id: this.newId(),
			key,
			name,
			region,
			house
		}));
		for (const { key } of rooms) this.#keepers.set(key, []);
	}

	/** UUID version 7 of the current time; the random part counts, so that ids keep their order. */
	newId(): string {
		this.#ids += 1;
		const time = Math.floor(this.time).toString(16).padStart(12, '0');
		const count = this.#ids.toString(16).padStart(6, '0');
		const random = () =>
			Math.floor(this.dice.next() * 0x1000)
				.toString(16)
				.padStart(3, '0');
		return `${time.slice(0, 8)}-${time.slice(8)}-7${count.slice(0, 3)}-8${count.slice(3)}-${random()}${random()}${random()}${random()}`;
	}

	month(months: number): number {
		return this.start + months * monthMs;
	}
	daysAgo(days: number): number {
		return this.now - days * dayMs;
	}
	/** The same day at an hour, with some minutes. */
	hour(time: number, hour: number): number {
		return Math.floor(time / dayMs) * dayMs + hour * hourMs + this.dice.whole(0, 55) * minuteMs;
	}

	/** Puts something on the calendar; what lies after the end of the scenario never happens. */
	at(time: number, act: () => void): void {
		if (time > this.now - quietMs) return;
		const due = { time: Math.max(time, this.time), place: (this.#places += 1), act };
		let low = 0;
		let high = this.#due.length;
		while (low < high) {
			const middle = (low + high) >> 1;
			const other = this.#due[middle];
			if (other && (other.time > due.time || (other.time === due.time && other.place > due.place)))
				low = middle + 1;
			else high = middle;
		}
		this.#due.splice(low, 0, due);
	}
	after(days: number, act: () => void): void {
		this.at(this.hour(this.time + days * dayMs, this.dice.chance(0.3) ? 7 : this.dice.whole(17, 20)), act);
	}
	run(): void {
		for (let due = this.#due.pop(); due; due = this.#due.pop()) {
			this.time = Math.max(this.time, due.time);
			due.act();
		}
	}

	member(key: MemberKey): ScenarioMember {
		return found(
			this.members.find((member) => member.key === key),
			key
		);
	}
	memberById(id: MemberId): ScenarioMember {
		return found(
			this.members.find((member) => member.id === id),
			id
		);
	}
	room(key: RoomKey): ScenarioRoom {
		return found(
			this.rooms.find((room) => room.key === key),
			key
		);
	}
	/** Who keeps the room now; the first of them may be away, so any may write. */
	keepers(key: RoomKey): readonly MemberId[] {
		return this.#keepers.get(key) ?? [];
	}
	keeper(key: RoomKey): MemberId {
		return this.dice.pick(this.keepers(key));
	}

	fact(words: FactWords): void {
		this.#tick();
		const fact = { ...words, at: this.time } as ClubFact;
		this.facts.push(fact);
		const keyOf = (id: string) =>
			found(
				this.rooms.find((room) => room.id === id),
				id
			).key;
		if (fact.fact === 'room opened') this.#keepers.set(keyOf(fact.room), [...fact.keepers]);
		if (fact.fact === 'keeper added') this.#keepers.get(keyOf(fact.room))?.push(fact.member);
		if (fact.fact === 'member left')
			for (const [key, kept] of this.#keepers)
				this.#keepers.set(
					key,
					kept.filter((one) => one !== fact.member)
				);
	}

	/** Writes an entry now. No two are written in one minute: fish that move in a row stay in order. */
	write<Body>(kind: Kind<Body>, body: NoInfer<Body>, how: Writing): EntryId {
		this.#tick();
		const entry: Entry = {
			id: this.newId(),
			kind: kind.kind,
			version: kind.version,
			by: how.by,
			device: how.device ?? this.deviceOf(how.by),
			...(how.toldBy ? { toldBy: how.toldBy } : {}),
			happened: how.happened ?? this.moment(),
			about: [...new Set(kind.things(body).map((thing) => thing.id))],
			...(how.corrects ? { corrects: how.corrects } : {}),
			body
		};
		const offline = (how.offlineHours ?? (this.dice.chance(0.2) ? this.dice.whole(2, 40) : 0)) * hourMs;
		const sharedAt = Math.min(this.time + offline + 20_000, this.now - minuteMs);
		this.entries.push({ audience: how.audience ?? 'club', entry, sharedAt });
		return entry.id;
	}
	/** Ties the last entries to one writing. */
	tieTogether(count: number): void {
		const last = this.entries.splice(-count);
		const together = last.map(({ entry }) => entry.id);
		const sharedAt = Math.max(...last.map((one) => one.sharedAt));
		for (const one of last) this.entries.push({ ...one, entry: { ...one.entry, together }, sharedAt });
	}

	deviceOf(member: MemberId): DeviceId {
		return found(this.memberById(member).devices[this.dice.chance(0.85) ? 0 : 1], member);
	}
	moment(): string {
		return `${new Date(this.time).toISOString().slice(0, 16)}Z`;
	}

	/** The next label of the member's phone. */
	bagNumber(member: MemberId): string {
		const device = found(this.memberById(member).devices[0], member);
		let numbers = this.#numbers.get(device);
		if (!numbers || numbers.next > numbers.last) {
			const first = firstNumber + this.numberBlocks.length * numbersPerBlock;
			numbers = { next: first, last: first + numbersPerBlock - 1 };
			this.#numbers.set(device, numbers);
			this.numberBlocks.push({ device, first, last: numbers.last, at: this.time });
		}
		numbers.next += 1;
		return bagNumberOf(numbers.next - 1);
	}

	#tick(): void {
		this.time = Math.floor(this.time / minuteMs) * minuteMs + minuteMs;
	}
}

function found<Thing>(thing: Thing | undefined, what: string): Thing {
	if (thing === undefined) throw new RangeError(`the scenario requires ${what}`);
	return thing;
}
