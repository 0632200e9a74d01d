/**
 * A club's record as it grows in earnest, from a seed: forty rooms, a dozen lines, groups that live a year or two and
 * have a dozen entries each, bags, exchanges, check-ins, now and then a correction, a dispute, a tap.
 */
import type { Entry, Stamp } from '#records/entry.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import { kinds } from '#records/kinds.ts';

export interface Row {
	readonly entry: Entry;
	readonly stamp: Stamp | null;
}

interface GroupNow {
	readonly id: string;
	readonly line: string;
	readonly room: string;
	fish: number;
}

const day = 86_400_000;
const start = Date.UTC(2006, 0, 1);
const end = Date.UTC(2026, 0, 1);
/** Tanks that a keeper watches at one time. */
const groupsKept = 12;

/**
 * @param size how many entries; they spread over twenty years
 * @param lineCount not more than rooms: each line has a keeper for a coordinator
 */
export function ledgerHistory(seed: number, size: number, roomCount = 40, lineCount = 12): Row[] {
	const random = randomFrom(seed);
	const whole = (below: number) => Math.floor(random() * below);
	const pick = <T>(list: readonly T[]): T => list[whole(list.length)] as T;
	const rows: Row[] = [];
	let n = 0;
	const step = (end - start) / size;
	const now = () => start + rows.length * step;
	const hex = (digits: number) =>
		Array.from({ length: Math.ceil(digits / 6) }, () => whole(0x1000000).toString(16).padStart(6, '0'))
			.join('')
			.slice(0, digits);
	const id = (time: number) => {
		const clock = Math.floor(time).toString(16).padStart(12, '0');
		return `${clock.slice(0, 8)}-${clock.slice(8)}-7${hex(3)}-8${hex(3)}-${hex(12)}`;
	};
	const rooms = Array.from({ length: roomCount }, () => id(start));
	const keepers = rooms.map(() => id(start));
	const lines = Array.from({ length: lineCount }, () => id(start));
	const coordinators = lines.map((_, i) => keepers[i] as string);
	const devices = new Map(keepers.map((keeper) => [keeper, id(start)]));
	const keeperOf = (room: string) => keepers[rooms.indexOf(room)] as string;

	const put = (
		by: string,
		kind: string,
		body: unknown,
		about: string[],
		more: Partial<Entry> = {}
	): string => {
		const time = Math.floor(now());
		const when = new Date(time).toISOString();
		const happened = random() < 0.7 ? `${when.slice(0, 16)}+00:00` : when.slice(0, 10);
		const device = devices.get(by) ?? 'server';
		const version = kinds.get(kind)?.version ?? 1;
		const entry = { id: id(time), kind, version, by, device, happened, about, ...more, body };
		const decided = /^(club|exchange|line|meeting\/(planned|calledOff)|room\/(closed|reopened))/.test(kind);
		const stamped =
			by === 'club' || decided || /quarantine|spare|group\/(closed|reopened)|decided/.test(kind);
		if (stamped) n += 1;
		rows.push({ entry, stamp: stamped ? { id: entry.id, n, time } : null });
		return entry.id;
	};
	const server = (kind: string, body: object, about: string[]) =>
		put('club', kind, { ...body, askedBy: null }, about, {
			happened: new Date(Math.floor(now())).toISOString()
		});

	server(
		'club/opened',
		{ club: id(start), name: 'Tideline Club', timeZone: 'Europe/London', region: 'North' },
		[]
	);
	rooms.forEach((room, i) => {
		const member = keepers[i] as string;
		server('club/memberJoined', { member, name: `Keeper ${i + 1}` }, [member]);
		server('club/roomOpened', { room, name: `Room ${i + 1}`, region: 'North', house: '' }, [room]);
		server('club/keeperAdded', { room, member, epoch: id(start) }, [room, member]);
	});
	server('club/roleGiven', { member: keepers[0], role: 'officer', of: null }, [keepers[0] as string]);
	lines.forEach((line, i) => {
		const member = coordinators[i] as string;
		server('club/roleGiven', { member, role: 'coordinator', of: line }, [member]);
		const definition = {
			code: `LINE-${i + 1}`,
			name: `Line ${i + 1}`,
			kind: i % 2 ? 'strain' : 'conservation',
			fishGroup: pick(['guppy', 'bristlenose', 'annual killifish', 'goodeid', 'livebearer'] as const),
			taxonVerbatim: 'as written on the bag',
			taxonTidy: '',
			localityVerbatim: 'lower stream, left bank',
			localityCode: '',
			source: 'an older keeper',
			movement: 'none'
		};
		put(member, 'line/opened', { line, definition }, [line]);
	});

	const kept = new Map<string, GroupNow[]>(rooms.map((room) => [room, []]));
	const fishOf = (count: number) => ({
		males: Math.floor(count / 3),
		females: Math.floor(count / 3),
		unsexed: count % 3
	});
	const keep = (group: GroupNow) => {
		const groups = kept.get(group.room) ?? [];
		groups.push(group);
		if (groups.length > groupsKept) {
			const gone = groups.shift() as GroupNow;
			put(keeperOf(gone.room), 'group/stageReached', { group: gone.id, room: gone.room, stage: 'ended' }, [
				gone.id
			]);
		}
	};
	const found = (room: string, line: string) => {
		const group: GroupNow = { id: id(now()), line, room, fish: 6 + whole(20) };
		const origin = { from: 'founders', source: 'a friend', related: 'not known' };
		put(
			keeperOf(room),
			'group/started',
			{
				group: group.id,
				line,
				room,
				name: '',
				tank: `rack ${whole(9)}`,
				origin,
				fish: fishOf(group.fish),
				certainty: 'counted',
				stage: 'adult'
			},
			[group.id, line, room]
		);
		keep(group);
	};
	for (const room of rooms) for (let i = 0; i < 3; i++) if (rows.length < size) found(room, pick(lines));

	let number = 100;
	/** What has begun and goes on later: bags on their way, exchanges being answered. */
	const later: { at: number; tell: () => void }[] = [];
	const soon = (days: number, tell: () => void) => later.push({ at: now() + days * day, tell });
	const groupIn = (room: string) => pick(kept.get(room) ?? []);
	const anyRoom = () => pick(rooms.filter((room) => kept.get(room)?.length));
	const told: { id: string; by: string; kind: string; body: unknown; about: string[] }[] = [];

	const acts: Record<string, () => void> = {
		count: () => {
			const group = groupIn(anyRoom());
			group.fish = Math.max(2, group.fish + whole(5) - 2);
			const body = {
				group: group.id,
				room: group.room,
				fish: fishOf(group.fish),
				certainty: pick(['counted', 'about'])
			};
			const by = keeperOf(group.room);
			told.push({
				id: put(by, 'group/counted', body, [group.id]),
				by,
				kind: 'group/counted',
				body,
				about: [group.id]
			});
		},
		change: () => {
			const group = groupIn(anyRoom());
			const body = {
				group: group.id,
				room: group.room,
				fish: fishOf(1 + whole(3)),
				why: pick(['died', 'lost', 'rehomed']),
				cause: ''
			};
			put(keeperOf(group.room), 'group/changed', body, [group.id]);
		},
		stage: () => {
			const group = groupIn(anyRoom());
			const stage = pick(['eyed', 'hatched', 'free-swimming', 'growing on', 'sexed', 'adult']);
			put(keeperOf(group.room), 'group/stageReached', { group: group.id, room: group.room, stage }, [
				group.id
			]);
		},
		spawn: () => {
			const parent = groupIn(anyRoom());
			const brood: GroupNow = { id: id(now()), line: parent.line, room: parent.room, fish: 10 + whole(60) };
			const parents = {
				of: [{ group: parent.id, standing: pick(['seen', 'likely', 'possible']) }],
				others: random() < 0.2,
				number: 'not known'
			};
			const spawn = id(now());
			const body = {
				spawn,
				brood: brood.id,
				line: parent.line,
				room: parent.room,
				inGroup: parent.id,
				sort: pick(['spawn', 'drop']),
				mothers: parents,
				fathers: parents,
				stage: 'laid',
				fish: { males: 0, females: 0, unsexed: brood.fish },
				certainty: 'about'
			};
			put(keeperOf(parent.room), 'spawn/seen', body, [spawn, brood.id, parent.id]);
			keep(brood);
		},
		name: () => {
			const group = groupIn(anyRoom());
			const body = { group: group.id, room: group.room, name: `Tank ${whole(99)}`, tank: 'left' };
			put(keeperOf(group.room), 'group/named', body, [group.id]);
		},
		check: () => {
			const group = groupIn(anyRoom());
			const body = { room: group.room, line: group.line, has: 'yes', breeding: 'yes', note: '' };
			put(keeperOf(group.room), 'room/checkedIn', body, [group.room, group.line]);
		},
		bag: () => sendBag(anyRoom(), pick(rooms), null),
		exchange: () => {
			const from = groupIn(anyRoom());
			const toRoom = pick(rooms.filter((room) => room !== from.room));
			const exchange = id(now());
			const named = { exchange, line: from.line };
			const gives = [{ fromRoom: from.room, group: from.id, fish: fishOf(3) }];
			const reason = 'The young would be related like cousins.';
			const by = coordinators[lines.indexOf(from.line)] as string;
			put(
				by,
				'exchange/proposed',
				{
					...named,
					gives,
					toRoom,
					meeting: null,
					note: '',
					reason,
					asked: true,
					...{ outcross: null, plan: null }
				},
				[exchange]
			);
			for (const room of [from.room, toRoom]) {
				const answer = { ...named, room, answer: random() < 0.9 ? 'yes' : 'no', until: '', reason: '' };
				soon(1 + whole(10), () => put(keeperOf(room), 'exchange/answered', answer, [exchange]));
			}
			soon(14, () => sendBag(from.room, toRoom, exchange));
		},
		spare: () => {
			const group = groupIn(anyRoom());
			const body = { group: group.id, room: group.room, fish: fishOf(4), until: '', note: '' };
			put(keeperOf(group.room), 'group/spareOffered', body, [group.id]);
		},
		fellow: () => {
			// Somebody else says what they saw; the keeper confirms it with a tap.
			const group = groupIn(anyRoom());
			const body = { group: group.id, room: group.room, fish: fishOf(group.fish), certainty: 'about' };
			const entry = put(pick(keepers), 'group/counted', body, [group.id]);
			soon(2, () => put(keeperOf(group.room), 'word/confirmed', { entry }, []));
		},
		correct: () => {
			const last = told[told.length - 1 - whole(Math.min(told.length, 200))];
			if (last) put(last.by, last.kind, last.body, last.about, { corrects: [last.id] });
		},
		dispute: () => {
			const last = told[told.length - 1 - whole(Math.min(told.length, 50))];
			if (!last) return;
			const dispute = put(pick(keepers), 'word/disputed', { entry: last.id, reason: 'I counted fewer.' }, []);
			const body = { dispute, of: last.id, stands: random() < 0.7, reason: 'Counted again.' };
			soon(7, () => put(keepers[0] as string, 'word/decided', body, []));
		}
	};
	function sendBag(fromRoom: string, toRoom: string, exchange: string | null): void {
		const groups = kept.get(fromRoom) ?? [];
		if (groups.length === 0 || fromRoom === toRoom) return;
		const from = pick(groups);
		const bag = id(now());
		number += 1;
		const fish = fishOf(2 + whole(5));
		const body = {
			bag,
			number: `${String(number).padStart(4, '0')}${'ACDEFHJKLMNPRTUVWXY'[number % 19]}`,
			line: from.line,
			contents: [{ group: from.id, fish }],
			fromRoom,
			to: { to: 'room', room: toRoom },
			meeting: null,
			exchange,
			note: ''
		};
		put(keeperOf(fromRoom), 'bag/bagged', body, [bag, from.id]);
		const handed = { bag, fromRoom, toRoom, meeting: null };
		soon(1, () => put(keeperOf(toRoom), 'bag/handedOver', handed, [bag]));
		soon(1.2, () => {
			const group: GroupNow = {
				id: id(now()),
				line: from.line,
				room: toRoom,
				fish: fish.males + fish.females + fish.unsexed
			};
			const arrived = {
				bag,
				room: toRoom,
				group: group.id,
				line: from.line,
				alive: fish,
				dead: 0,
				certainty: 'counted',
				tank: ''
			};
			put(keeperOf(toRoom), 'bag/arrived', arrived, [bag, group.id]);
			keep(group);
		});
		soon(8, () => put(keeperOf(toRoom), 'bag/dayCount', { bag, room: toRoom, alive: 3, note: '' }, [bag]));
	}
	const weights: Record<string, number> = {
		count: 30,
		change: 12,
		stage: 12,
		spawn: 8,
		name: 3,
		check: 12,
		bag: 3,
		exchange: 1,
		spare: 2,
		fellow: 1,
		correct: 2,
		dispute: 0.3
	};
	const total = Object.values(weights).reduce((sum, weight) => sum + weight, 0);
	while (rows.length < size) {
		const due = later.findIndex((one) => one.at <= now());
		if (due >= 0) {
			later.splice(due, 1)[0]?.tell();
			continue;
		}
		let at = random() * total;
		const name = Object.keys(weights).find((one) => (at -= weights[one] ?? 0) < 0) ?? 'count';
		acts[name]?.();
	}
	return rows.slice(0, size);
}
