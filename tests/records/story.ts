/**
 * A small club to tell stories about: two lines, three rooms, a meeting, and somebody in every role. Each entry is told
 * an hour after the last unless said otherwise; decisions and the server's entries are stamped.
 */
import { Fold, type FoldInput } from '#records/fold.ts';
import { kinds } from '#records/kinds.ts';
import type { Entry, Stamp } from '#records/entry.ts';
import type { Fish } from '#records/state.ts';
import { uuid7 } from '#tests/helpers/randomHistory.ts';

export interface Telling {
	/** ISO 8601-2; the moment of writing unless given. */
	readonly happened?: string;
	readonly corrects?: readonly string[];
	readonly because?: string;
	readonly toldBy?: string;
	readonly about?: readonly string[];
	readonly version?: number;
	readonly stamped?: boolean;
	/** Time in the id, ms since 1970: the writer's clock. */
	readonly clock?: number;
}

const hour = 3_600_000;

export function fishOf(males: number, females: number, unsexed: number): Fish {
	return { males, females, unsexed };
}

export class Story {
	readonly inputs: FoldInput[] = [];
	now = Date.UTC(2026, 0, 1);
	#counter = 0;
	#n = 0;

	/** Tells an entry; returns its id. */
	tell(by: string, kind: string, body: unknown, telling: Telling = {}): string {
		this.now += hour;
		this.#counter += 1;
		const id = uuid7(telling.clock ?? this.now, this.#counter);
		const entry: Entry = {
			id,
			kind,
			version: telling.version ?? 1,
			by,
			device: `${by}-phone`,
			...(telling.toldBy ? { toldBy: telling.toldBy } : {}),
			happened: telling.happened ?? new Date(this.now).toISOString(),
			about: telling.about ?? [],
			...(telling.corrects ? { corrects: telling.corrects } : {}),
			...(telling.because ? { because: telling.because } : {}),
			body
		};
		const nature = kinds.get(kind)?.nature;
		const stamped = telling.stamped ?? (nature === 'decision' || by === 'club');
		this.inputs.push(stamped ? { entry, stamp: this.stampFor(id) } : { entry });
		return id;
	}

	stampFor(id: string): Stamp {
		this.#n += 1;
		return { id, n: this.#n, time: this.now };
	}

	club(kind: string, body: object): string {
		return this.tell('club', kind, { ...body, askedBy: null });
	}

	fold(): Fold {
		const fold = new Fold();
		fold.add(this.inputs);
		return fold;
	}

	count(by: string, group: string, fish: Fish, telling: Telling & { certainty?: string } = {}): string {
		const certainty = telling.certainty ?? 'counted';
		return this.tell(by, 'group/counted', { group, room: null, fish, certainty }, telling);
	}

	start(by: string, group: string, room: string, line: string, fish: Fish, telling: Telling = {}): string {
		const origin = { from: 'founders', source: 'a friend', related: 'unrelated' };
		return this.tell(
			by,
			'group/started',
			{ group, line, room, name: '', tank: '', origin, fish, certainty: 'counted', stage: null },
			telling
		);
	}

	bag(by: string, bag: string, body: object, telling: Telling = {}): string {
		const blank = {
			number: '',
			line: null,
			contents: [],
			fromRoom: null,
			to: null,
			meeting: null,
			exchange: null,
			note: ''
		};
		return this.tell(by, 'bag/bagged', { bag, ...blank, ...body }, telling);
	}

	arrive(
		by: string,
		bag: string,
		room: string,
		group: string,
		alive: Fish,
		dead = 0,
		telling: Telling = {}
	): string {
		const body = { bag, room, group, line: null, alive, dead, certainty: 'counted', tank: '' };
		return this.tell(by, 'bag/arrived', body, telling);
	}
}

export const definition = {
	code: 'HARBOUR-2',
	name: 'Harbour reds',
	kind: 'strain',
	fishGroup: 'guppy',
	taxonVerbatim: '',
	taxonTidy: '',
	localityVerbatim: '',
	localityCode: '',
	source: '',
	movement: 'none'
};

/**
 * olga: officer. cora, dina: coordinator and deputy of line A; cole: coordinator of line B. kim keeps r1, kai r2, kit
 * r3; fay kept r1 until she gave it up, lena kept r1 until she left the club. rune runs meeting t1. nora: no part.
 */
export function newClub(timeZone = 'UTC'): Story {
	const story = new Story();
	story.club('club/opened', { club: 'c', name: 'Tideline Club', timeZone, region: '' });
	for (const member of ['olga', 'cora', 'dina', 'cole', 'kim', 'kai', 'kit', 'fay', 'lena', 'rune', 'nora'])
		story.club('club/memberJoined', { member, name: member });
	for (const room of ['r1', 'r2', 'r3'])
		story.club('club/roomOpened', { room, name: `Room ${room}`, region: '', house: '' });
	const keepers = [
		['kim', 'r1'],
		['kai', 'r2'],
		['kit', 'r3'],
		['fay', 'r1'],
		['lena', 'r1']
	] as const;
	for (const [member, room] of keepers)
		story.club('club/keeperAdded', { room, member, epoch: `${room}-${member}` });
	const roles = [
		['olga', 'officer', null],
		['cora', 'coordinator', 'lA'],
		['dina', 'deputy', 'lA'],
		['cole', 'coordinator', 'lB'],
		['rune', 'runner', 't1']
	] as const;
	for (const [member, role, of] of roles) story.club('club/roleGiven', { member, role, of });
	story.club('club/keeperRemoved', { room: 'r1', member: 'fay', epoch: 'r1-later' });
	story.club('club/memberLeft', { member: 'lena', name: 'former member 1' });
	story.tell('cora', 'line/opened', { line: 'lA', definition });
	story.tell('cole', 'line/opened', {
		line: 'lB',
		definition: { ...definition, code: 'MARSH-1', name: 'Marsh blues' }
	});
	return story;
}
