/** A club written entry by entry and folded, for the questions that are asked of its state. */
import type { Asking } from '#club/question.ts';
import type { Draft, Entry } from '#records/entry.ts';
import { Fold } from '#records/fold.ts';
import type { Fish, FishGroup, LineDefinition, Origin } from '#records/state.ts';
import { uuid7 } from '#tests/helpers/randomHistory.ts';

export const day = 86_400_000;
/** "Today" of these tests. */
export const today = Date.UTC(2026, 5, 30, 12);
export const fish = (males: number, females: number, unsexed = 0): Fish => ({ males, females, unsexed });
/** So many days before today, as an exact moment. */
export const ago = (days: number): string => new Date(today - days * day).toISOString().slice(0, 16) + 'Z';

const founders: Origin = { from: 'founders', source: 'a friend', related: 'not known' };

export class ClubOf {
	readonly fold = new Fold();
	#counter = 0;

	/** @param rooms by id; a house after a slash: `mill/old house` */
	constructor(rooms: readonly string[] = ['harbour', 'mill', 'orchard', 'quarry', 'tower', 'weir']) {
		this.#server('club/opened', {
			club: 'c',
			name: 'Tidewater',
			timeZone: 'UTC',
			region: 'coast',
			askedBy: null
		});
		for (const named of rooms) {
			const [room = '', house = ''] = named.split('/');
			this.#server('club/memberJoined', { member: `${room}-keeper`, name: `${room} keeper`, askedBy: null });
			this.#server('club/roomOpened', { room, name: `${room} room`, region: 'coast', house, askedBy: null });
			this.#server('club/keeperAdded', { room, member: `${room}-keeper`, epoch: `${room}-1`, askedBy: null });
		}
		this.#server('club/memberJoined', { member: 'officer', name: 'Officer', askedBy: null });
		this.#server('club/roleGiven', { member: 'officer', role: 'officer', of: null, askedBy: null });
	}

	get state() {
		return this.fold.state;
	}
	asking(me = 'officer'): Asking {
		return { now: today, me, fold: this.fold };
	}

	/** Writes one draft now; `at` days ago by the writer's clock. */
	write(by: string, draft: Draft, at = 0): string {
		return this.#put(
			by,
			draft,
			today - at * day,
			/^(line\/(opened|rulesSet|stateSaid|described|wanted)|group\/(closed|spareOffered|quarantineSet)|word\/decided|room\/(closed|reopened))/.test(
				draft.kind
			)
		);
	}
	line(
		id: string,
		fishGroup: FishGroup = 'corydoras',
		openedDaysAgo = 800,
		more: Partial<LineDefinition> = {}
	): this {
		const definition = {
			...{ code: id.toUpperCase(), name: `${id} line`, kind: 'conservation', fishGroup, movement: 'none' },
			...{ taxonVerbatim: '', taxonTidy: '', localityVerbatim: '', localityCode: '', source: '' },
			...more
		};
		this.write(
			'officer',
			{ kind: 'line/opened', happened: ago(openedDaysAgo), about: [id], body: { line: id, definition } },
			openedDaysAgo
		);
		return this;
	}
	/** A group of the line in a room; by its keeper. */
	group(
		id: string,
		room: string,
		line: string,
		of: Fish,
		daysAgo: number,
		more: { readonly origin?: Origin; readonly certainty?: 'counted' | 'about' | 'old list' } = {}
	): this {
		this.write(
			`${room}-keeper`,
			{
				kind: 'group/started',
				happened: ago(daysAgo),
				about: [id],
				body: {
					...{ group: id, line, room, name: `${id} group`, tank: '', origin: more.origin ?? founders },
					...{ fish: of, certainty: more.certainty ?? 'counted', stage: null }
				}
			},
			daysAgo
		);
		return this;
	}
	counted(
		group: string,
		room: string,
		of: Fish,
		daysAgo: number,
		certainty: 'counted' | 'about' = 'counted'
	): string {
		const body = { group, room, fish: of, certainty };
		return this.write(
			`${room}-keeper`,
			{ kind: 'group/counted', happened: ago(daysAgo), about: [group], body },
			daysAgo
		);
	}
	check(room: string, line: string, has: 'yes' | 'no' | 'unsure', daysAgo: number): string {
		const body = { room, line, has, breeding: 'unknown', note: '' };
		return this.write(
			`${room}-keeper`,
			{ kind: 'room/checkedIn', happened: ago(daysAgo), about: [room, line], body },
			daysAgo
		);
	}

	#server(kind: string, body: object): void {
		const about = Object.entries(body).flatMap(([name, value]) =>
			['club', 'member', 'room'].includes(name) && typeof value === 'string' ? [value] : []
		);
		const draft = { kind, happened: ago(1000), about, body };
		this.#put('club', draft, today - 1000 * day, true);
	}
	#put(by: string, draft: Draft, time: number, stamped: boolean): string {
		this.#counter += 1;
		const id = uuid7(time + this.#counter, this.#counter);
		const entry: Entry = { id, version: 1, by, device: `${by}-phone`, ...draft };
		this.fold.add([
			{ entry, ...(stamped ? { stamp: { id, n: this.#counter, time: time + this.#counter } } : {}) }
		]);
		return id;
	}
}
