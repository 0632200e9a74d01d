/** A small club written as entries, for questions that are asked of a folded state. */
import type { Entry } from '#records/entry.ts';
import { Fold } from '#records/fold.ts';
import type { Certainty, Fish, ParentSet, Standing } from '#records/state.ts';
import { uuid7 } from '#tests/helpers/randomHistory.ts';

export const start = Date.UTC(2025, 0, 1);
export const day = 86_400_000;
export const fish = (males: number, females: number, unsexed = 0): Fish => ({ males, females, unsexed });
export const parents = (
	of: readonly (readonly [string, Standing])[],
	others = false,
	number: ParentSet['number'] = 'one'
) => ({
	of: of.map(([group, standing]) => ({ group, standing })),
	others,
	number
});

export interface Written {
	readonly entry: Entry;
	readonly stamp?: { readonly id: string; readonly n: number; readonly time: number };
}

/** Writes entries one day apart; `at` is in days after the first of January 2025. */
export class Club {
	readonly written: Written[] = [];
	#counter = 0;

	constructor() {
		const rooms = ['harbour', 'mill', 'orchard', 'quarry'];
		this.server(
			'club/opened',
			{ club: 'club', name: 'Tidewater Club', timeZone: 'UTC', region: 'coast', askedBy: null },
			['club']
		);
		for (const room of rooms) {
			const member = `${room}-keeper`;
			this.server('club/memberJoined', { member, name: member, askedBy: null }, [member]);
			this.server(
				'club/roomOpened',
				{ room, name: `${room} room`, region: 'coast', house: '', askedBy: null },
				[room]
			);
			this.server('club/keeperAdded', { room, member, epoch: `${room}-1`, askedBy: null }, [room, member]);
		}
		this.server('club/memberJoined', { member: 'officer', name: 'Officer', askedBy: null }, ['officer']);
		this.server('club/roleGiven', { member: 'officer', role: 'officer', of: null, askedBy: null }, [
			'officer'
		]);
		this.line('cory');
	}

	server(kind: string, body: unknown, about: string[]): void {
		this.#put('club', kind, 0, body, about, true);
	}
	/** A fact or decision by a member; decisions are stamped. */
	say(by: string, kind: string, at: number, body: unknown, about: string[] = [], decision = false): string {
		return this.#put(by, kind, at, body, about, decision);
	}
	line(line: string, more: Record<string, unknown> = {}): void {
		const named = {
			code: line.toUpperCase(),
			name: `${line} line`,
			kind: 'conservation',
			fishGroup: 'corydoras'
		};
		const body = { line, definition: { ...named, ...blankLine, ...more } };
		this.say('officer', 'line/opened', 0, body, [line], true);
	}
	founders(
		group: string,
		room: string,
		of: Fish,
		related: 'unrelated' | 'one brood' | 'not known',
		at = 1,
		line = 'cory'
	): void {
		this.group(group, room, of, { from: 'founders', source: 'wild', related }, at, 'counted', line);
	}
	group(
		group: string,
		room: string,
		of: Fish,
		origin: unknown,
		at = 1,
		certainty: Certainty = 'counted',
		line = 'cory',
		by = `${room}-keeper`
	): void {
		const body = { group, line, room, name: group, tank: '', origin, fish: of, certainty, stage: 'adult' };
		this.say(by, 'group/started', at, body, [group]);
	}
	spawn(
		spawn: string,
		room: string,
		of: {
			fathers: ParentSetDraft;
			mothers: ParentSetDraft;
			young?: number;
			inGroup?: string | null;
			at?: number;
		}
	): void {
		const body = {
			...{ spawn, brood: `${spawn}-young`, line: 'cory', room, inGroup: of.inGroup ?? null, sort: 'spawn' },
			...{
				fathers: of.fathers,
				mothers: of.mothers,
				stage: 'adult',
				fish: fish(0, 0, of.young ?? 20),
				certainty: 'counted'
			}
		};
		this.say(`${room}-keeper`, 'spawn/seen', of.at ?? 30, body, [spawn]);
	}
	/** Bagged in one room and arrived in another as `group`. */
	bag(
		bag: string,
		of: {
			from: string;
			to: string;
			contents: readonly { group: string | null; fish: Fish }[];
			group: string;
			at?: number;
		}
	): void {
		const alive = of.contents.reduce(
			(sum, one) =>
				fish(sum.males + one.fish.males, sum.females + one.fish.females, sum.unsexed + one.fish.unsexed),
			fish(0, 0)
		);
		const to = { to: 'room', room: of.to };
		const body = {
			bag,
			number: '',
			line: 'cory',
			contents: of.contents,
			fromRoom: of.from,
			to,
			meeting: null,
			exchange: null,
			note: ''
		};
		this.say(`${of.from}-keeper`, 'bag/bagged', of.at ?? 60, body, [bag]);
		const arrived = {
			bag,
			room: of.to,
			group: of.group,
			line: 'cory',
			alive,
			dead: 0,
			certainty: 'counted',
			tank: ''
		};
		this.say(`${of.to}-keeper`, 'bag/arrived', (of.at ?? 60) + 1, arrived, [bag]);
	}
	/** What one person says of a bag; fields left out say nothing. */
	bagged(by: string, bag: string, at: number, said: Record<string, unknown> = {}): string {
		const body = {
			...{
				bag,
				number: '',
				line: null,
				contents: [],
				fromRoom: null,
				to: null,
				meeting: null,
				exchange: null,
				note: ''
			},
			...said
		};
		return this.say(by, 'bag/bagged', at, body, [bag]);
	}
	arrived(
		by: string,
		bag: string,
		at: number,
		room: string,
		alive: Fish,
		more: Record<string, unknown> = {}
	): string {
		const body = {
			bag,
			room,
			group: `${bag}-${by}`,
			line: 'cory',
			alive,
			dead: 0,
			certainty: 'counted',
			tank: '',
			...more
		};
		return this.say(by, 'bag/arrived', at, body, [bag]);
	}
	meeting(meeting: string, date: string, at = 1): void {
		this.say(
			'officer',
			'meeting/planned',
			at,
			{ meeting, name: meeting, date, place: 'Chapel hall' },
			[meeting],
			true
		);
	}
	propose(by: string, exchange: string, at: number, said: Record<string, unknown>): string {
		const body = { exchange, line: 'cory', meeting: null, note: '', reason: '', asked: true, ...said };
		return this.say(by, 'exchange/proposed', at, body, [exchange], true);
	}
	answer(
		by: string,
		exchange: string,
		at: number,
		room: string,
		answer: 'yes' | 'no' | 'later',
		more: { until?: string; reason?: string; toldBy?: string } = {}
	): void {
		const body = { exchange, line: 'cory', room, answer, until: more.until ?? '', reason: more.reason ?? '' };
		this.#put(by, 'exchange/answered', at, body, [exchange], true, more.toldBy);
	}
	fold(order: (written: readonly Written[]) => readonly Written[] = (all) => all): Fold {
		const fold = new Fold();
		fold.add(order(this.written));
		return fold;
	}

	#put(
		by: string,
		kind: string,
		at: number,
		body: unknown,
		about: string[],
		stamped: boolean,
		toldBy?: string
	): string {
		this.#counter++;
		const time = start + at * day + this.#counter;
		const entry: Entry = {
			...{ id: uuid7(time, this.#counter), kind, version: 1, by, device: `${by}-phone` },
			...{ happened: `${new Date(time).toISOString().slice(0, 19)}Z`, about, body },
			...(toldBy ? { toldBy } : {})
		};
		this.written.push(stamped ? { entry, stamp: { id: entry.id, n: this.#counter, time } } : { entry });
		return entry.id;
	}
}

type ParentSetDraft = ReturnType<typeof parents>;

const blankLine = {
	...{
		taxonVerbatim: '',
		taxonTidy: '',
		localityVerbatim: 'Stone weir, upper pool',
		localityCode: '',
		source: ''
	},
	movement: 'none'
};

/** Asked by a member at a time in days after the first of January 2025. */
export function asking(
	fold: Fold,
	me: string,
	at: number
): { readonly now: number; readonly me: string; readonly fold: Fold } {
	return { now: start + at * day, me, fold };
}
