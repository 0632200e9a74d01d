/** A small club written entry by entry, for plans of its swaps; its entries can be folded in any order. */
import type { Audience, Entry, EntryId } from '#records/entry.ts';
import { Fold, type FoldInput } from '#records/fold.ts';
import { kinds } from '#records/kinds.ts';
import type { Fish } from '#records/state.ts';
import { defaultSettings, type SeasonSettings } from '#season/seasonSettings.ts';
import { seasonProblem } from '#season/seasonProblem.ts';
import type { SeasonAsking } from '#season/seasonAsking.ts';
import { seasonStart, type SeasonStart } from '#season/seasonStart.ts';
import type { SeasonAsked } from '#season/seasonWords.ts';
import { uuid7 } from '#tests/helpers/randomHistory.ts';

export const day = 86_400_000;
/** "Today" of these tests. */
export const today = Date.UTC(2026, 10, 26, 12);
export const fish = (males: number, females: number, unsexed = 0): Fish => ({ males, females, unsexed });
export const dateIn = (days: number) => new Date(today + days * day).toISOString().slice(0, 10);
const rules = {
	targetRooms: 5,
	confirmedDays: 180,
	ageingDays: 90,
	neverCrossWith: '',
	spareToPublic: false
};

export class SeasonClub {
	readonly inputs: FoldInput[] = [];
	readonly privateWords = new Map<EntryId, Entry>();
	#counter = 0;

	/** Rooms harbour, mill (one region), orchard (another), attic (region not said), upper and lower (one house). */
	constructor() {
		this.server('club/opened', { club: 'c', name: 'Tidewater', timeZone: 'UTC', region: '', askedBy: null });
		const rooms = [
			['harbour', 'Coast', ''],
			['mill', 'Coast', ''],
			['orchard', 'Hills', ''],
			['attic', '', ''],
			['lower', 'Vale', 'Lantern'],
			['upper', 'Vale', 'Lantern']
		] as const;
		for (const [room, region, house] of rooms) {
			const member = `${room}-keeper`;
			const name = `${room.charAt(0).toUpperCase()}${room.slice(1)} room`;
			this.server('club/memberJoined', { member, name: member, askedBy: null });
			this.server('club/roomOpened', { room, name, region, house, askedBy: null });
			this.server('club/keeperAdded', { room, member, epoch: `${room}-1`, askedBy: null });
		}
		for (const [member, role, of] of [
			['officer', 'officer', null],
			['cora', 'coordinator', 'blue']
		]) {
			this.server('club/memberJoined', { member, name: member, askedBy: null });
			this.server('club/roleGiven', { member, role, of, askedBy: null });
		}
	}

	server(kind: string, body: Record<string, unknown>): void {
		this.say('club', kind, body, 1000);
	}
	/** So many days ago; decisions and the server's own are stamped. */
	say(
		by: string,
		kind: string,
		body: Record<string, unknown>,
		daysAgo: number,
		more: Partial<Entry> = {}
	): string {
		this.#counter += 1;
		const time = today - daysAgo * day + this.#counter;
		const id = uuid7(time, this.#counter);
		const happened = `${new Date(time).toISOString().slice(0, 19)}Z`;
		const { nature, version = 1 } = kinds.get(kind) ?? {};
		const entry: Entry = { id, kind, version, by, device: `${by}-phone`, happened, about: [], body, ...more };
		const isStamped = nature === 'decision' || nature === 'server';
		this.inputs.push(isStamped ? { entry, stamp: { id, n: this.#counter, time } } : { entry });
		return id;
	}
	line(line: string, targetRooms = 5): this {
		const blank = { taxonVerbatim: '', taxonTidy: '', localityVerbatim: '', localityCode: '', source: '' };
		const named = { code: line.toUpperCase(), name: `${line} guppy`, kind: 'strain', fishGroup: 'guppy' };
		this.say('officer', 'line/opened', { line, definition: { ...named, ...blank, movement: 'none' } }, 900);
		this.say('officer', 'line/rulesSet', { line, rules: { ...rules, targetRooms } }, 899);
		return this;
	}
	/** A group of unrelated founders, counted lately, unless said otherwise. */
	group(group: string, room: string, line: string, of: Fish, more: Record<string, unknown> = {}): this {
		const origin = { from: 'founders', source: `wild ${group}`, related: 'unrelated' };
		const said = { name: `${group} tank`, tank: '', origin, fish: of, certainty: 'counted', stage: 'adult' };
		this.say(`${room}-keeper`, 'group/started', { group, line, room, ...said, ...more }, 60);
		return this;
	}
	counts(group: string, room: string, of: Fish): this {
		const body = { group, room, fish: of, certainty: 'counted' };
		this.say(`${room}-keeper`, 'group/counted', body, 1);
		return this;
	}
	spare(group: string, room: string, of: Fish, until = ''): this {
		this.say(`${room}-keeper`, 'group/spareOffered', { group, room, fish: of, until, note: '' }, 5);
		return this;
	}
	want(line: string, room: string, daysAgo: number): this {
		this.say(`${room}-keeper`, 'line/wanted', { line, room, note: '' }, daysAgo);
		return this;
	}
	bag(bag: string, from: string, to: string, group: string, line: string, of: Fish, daysAgo: number): this {
		const said = { number: '', line, contents: [{ group, fish: of }], fromRoom: from, note: '' };
		const body = { bag, ...said, to: { to: 'room', room: to }, meeting: null, exchange: null };
		this.say(`${from}-keeper`, 'bag/bagged', body, daysAgo);
		const arrived = { bag, room: to, group: `${bag}-fish`, line, alive: of, dead: 0 };
		this.say(`${to}-keeper`, 'bag/arrived', { ...arrived, certainty: 'counted', tank: '' }, daysAgo);
		return this;
	}
	meeting(inDays = 18): this {
		const body = { meeting: 'winter', name: 'Winter meeting', date: dateIn(inDays), place: 'Hall' };
		this.say('officer', 'meeting/planned', body, 40);
		return this;
	}
	attends(room: string, coming: boolean): this {
		this.say(`${room}-keeper`, 'meeting/attending', { meeting: 'winter', room, coming }, 3);
		return this;
	}
	propose(
		exchange: string,
		line: string,
		from: string,
		group: string | null,
		of: Fish,
		to: string,
		more = {}
	): this {
		const gives = [{ fromRoom: from, group, fish: of }];
		const blank = { meeting: null, note: '', reason: '', asked: true, outcross: null, plan: null };
		this.say('officer', 'exchange/proposed', { exchange, line, gives, toRoom: to, ...blank, ...more }, 2);
		return this;
	}
	answer(exchange: string, line: string, room: string, answer: string): this {
		const body = { exchange, line, room, answer, until: '', reason: '' };
		this.say(`${room}-keeper`, 'exchange/answered', body, 1);
		return this;
	}
	far(one: string, other: string, far = true): this {
		this.say('officer', 'club/distanceSaid', { club: 'c', one, other, far }, 3);
		return this;
	}
	tanks(room: string, tanks: number, daysAgo: number, more: Partial<Entry> = {}): this {
		this.say(`${room}-keeper`, 'room/tanksFree', { room, line: null, tanks }, daysAgo, more);
		return this;
	}
	/** Private words of officers: not in the club's record. */
	notToPair(members: readonly string[], more: Partial<Entry> = {}): string {
		const body = { sort: 'not to be paired', members, text: 'an old quarrel' };
		const id = this.say('officer', 'officers/words', body, 10, more);
		const { entry } = this.inputs.pop()!;
		this.privateWords.set(id, entry!);
		return id;
	}

	fold(order: (inputs: readonly FoldInput[]) => readonly FoldInput[] = (all) => all): Fold {
		const fold = new Fold();
		fold.add(order(this.inputs));
		return fold;
	}
	asking(fold: Fold, me = 'officer'): SeasonAsking {
		const reads = me === 'officer' || me === 'cora';
		const privateEntries = new Map<Audience, ReadonlyMap<EntryId, Entry>>(
			reads ? [['officers', this.privateWords]] : []
		);
		return { now: today, me, fold, privateEntries };
	}
	start(me: string, fold = this.fold()): SeasonStart {
		return seasonStart(fold.state, {}, this.asking(fold, me));
	}
	asked(settings: Partial<SeasonSettings> = {}, me = 'officer', fold = this.fold()): SeasonAsked {
		return seasonProblem(
			fold.state,
			{ settings: { ...defaultSettings, ...settings } },
			this.asking(fold, me)
		);
	}
}

/** Places by ids, so that tests speak of rooms and groups. */
export const roomOf = ({ problem }: SeasonAsked, id: string) => problem.rooms.find((room) => room.id === id);
export const sourceOf = ({ problem }: SeasonAsked, id: string) =>
	problem.sources.find((one) => one.id === id);
export const whyOut = ({ words }: SeasonAsked, group: string) =>
	words.leftOut.filter((one) => one.group === group).map(({ why }) => why);
export const holdingOf = ({ problem }: SeasonAsked, line: string, room: string) =>
	problem.holdings.findIndex(
		(one) => problem.lines[one.line]!.id === line && problem.rooms[one.room]!.id === room
	);
