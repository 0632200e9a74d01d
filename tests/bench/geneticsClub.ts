/** A line of ten rooms for the bench: the record of a club, written entry by entry from a seed and folded. */
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import type { Fold } from '#records/fold.ts';
import type { Standing } from '#records/state.ts';
import { Club, day, fish, parents, start } from '#tests/pedigree/builders.ts';

export interface BenchLine {
	readonly fold: Fold;
	readonly line: string;
	/** A month after the last entry, ms since 1970. */
	readonly now: number;
	readonly words: string;
	/** One more entry: a brood and a bag by turns. */
	oneMore(): void;
}

const line = 'cory';
/** Small lines beside it. */
export const otherLines = ['danio', 'medaka', 'killi', 'guppy', 'rasbora'];
const firstRooms = ['harbour', 'mill', 'orchard', 'quarry'];
const moreRooms = ['tower', 'weir', 'bridge', 'ferry', 'chapel', 'lock'];
const rooms = [...firstRooms, ...moreRooms];
const yearsBred = 12;

interface GroupNow {
	readonly id: string;
	readonly room: string;
	readonly at: number;
}

export function benchLine(asked: {
	readonly groups: number;
	readonly living: 'all' | 'of the last two years';
	readonly seed: number;
}): BenchLine {
	const random = randomFrom(asked.seed);
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
	const club = clubOfTenRooms();
	const groups: GroupNow[] = [];
	rooms.forEach((room, i) => {
		const related = (['unrelated', 'one brood', 'not known'] as const)[i % 3] as 'unrelated';
		club.founders(`founders ${i}`, room, fish(4, 6), related, 1 + i);
		groups.push({ id: `founders ${i}`, room, at: 1 + i });
	});
	const stepDays = (yearsBred * 365) / asked.groups;
	let step = 0;
	/** So many, the oldest, hold no fish. */
	let gone = 0;
	const time = () => 60 + step * stepDays;
	const isOld = (group: GroupNow) => group.at < time() - 730;
	const bred = () => {
		const room = pick(rooms);
		const here = groups.filter((group) => group.room === room && group.at < time() - 120);
		const of = here.filter((group) => !isOld(group));
		// Old fish go on while there are no younger ones.
		return { room, here: of.length > 0 ? of : here.slice(-2) };
	};
	const spawn = () => {
		const { room, here } = bred();
		if (here.length === 0) return;
		const side = (most: number) => [
			...new Set(Array.from({ length: 1 + Math.floor(random() * most) }, () => pick(here).id))
		];
		const standing = (ids: readonly string[], i: number): Standing =>
			ids.length === 1 ? 'seen' : i === 0 ? 'likely' : 'possible';
		const set = (ids: readonly string[]) =>
			parents(
				ids.map((id, i) => [id, standing(ids, i)] as const),
				ids.length > 2,
				pick(['one', 'several'] as const)
			);
		const id = `s${step}`;
		club.spawn(id, room, { fathers: set(side(3)), mothers: set(side(2)), young: 24, at: time() });
		groups.push({ id: `${id}-young`, room, at: time() });
	};
	const bag = () => {
		const { room, here } = bred();
		if (here.length === 0) return;
		const to = pick(rooms.filter((other) => other !== room));
		const contents = [{ group: pick(here).id, fish: fish(0, 0, 5) }];
		club.bag(`b${step}`, { from: room, to, contents, group: `a${step}`, at: time() });
		groups.push({ id: `a${step}`, room: to, at: time() + 1 });
	};
	while (groups.length < asked.groups) {
		step += 1;
		if (random() < 0.7) spawn();
		else bag();
		const counted = pick(groups);
		if (random() < 0.5 && counted.at < time() - 90 && !isOld(counted))
			count(club, counted, time(), [4, 5, Math.floor(random() * 6)]);
		if (asked.living === 'all') continue;
		// All of those that have grown old by now.
		for (; isOld(groups[gone]!); gone += 1) count(club, groups[gone]!, time(), [0, 0, 0]);
	}
	const fold = club.fold();
	let written = club.written.length;
	return {
		...{ fold, line, now: start + (time() + 400) * day },
		words:
			`one line of ${asked.groups} groups in 10 rooms over ${yearsBred} years, ${club.written.length} entries, seed ${asked.seed}: ` +
			`seven in ten are broods with one to three possible fathers and one or two mothers, three in ten came in bags; ` +
			(asked.living === 'all' ? 'all hold fish' : 'those older than two years hold none'),
		oneMore() {
			step += 1;
			while (club.written.length === written) {
				if (step % 2) spawn();
				else bag();
			}
			fold.add(club.written.slice(written));
			written = club.written.length;
		}
	};
}

function count(
	club: Club,
	{ id, room }: GroupNow,
	at: number,
	[males, females, unsexed]: readonly [number, number, number] | number[]
): void {
	const body = { group: id, room, fish: fish(males ?? 0, females ?? 0, unsexed ?? 0), certainty: 'counted' };
	club.say(`${room}-keeper`, 'group/counted', at, body, [id]);
}

function clubOfTenRooms(): Club {
	const club = new Club();
	for (const room of moreRooms) {
		const member = `${room}-keeper`;
		club.server('club/memberJoined', { member, name: member, askedBy: null }, [member]);
		club.server(
			'club/roomOpened',
			{ room, name: `${room} room`, region: 'coast', house: '', askedBy: null },
			[room]
		);
		club.server('club/keeperAdded', { room, member, epoch: `${room}-1`, askedBy: null }, [room, member]);
	}
	for (const other of otherLines) {
		club.line(other);
		club.founders(`${other} founders`, 'harbour', fish(2, 3), 'unrelated', 1, other);
	}
	return club;
}
