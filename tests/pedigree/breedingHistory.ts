/** A line bred in four rooms for some years, from a seed: unsure fathers, bags, counts, mixes. */
import type { Standing } from '#records/state.ts';
import { seeded } from '#tests/helpers/randomHistory.ts';
import { Club, day, fish, start } from './builders.ts';

const rooms = ['harbour', 'mill', 'orchard', 'quarry'] as const;
type RoomName = (typeof rooms)[number];

export function breedingHistory(seed: number, steps: number): Club {
	const random = seeded(seed);
	const club = new Club();
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
	const groups: { id: string; room: RoomName; at: number }[] = [];
	rooms.forEach((room, i) => {
		const id = `f${i}`;
		if (i === 3) club.group(id, room, fish(2, 3), { from: 'list', row: 'an old list' });
		else club.founders(id, room, fish(2, 3), pick(['unrelated', 'one brood', 'not known'] as const));
		groups.push({ id, room, at: 1 });
	});
	for (let step = 0; step < steps; step++) {
		const at = 40 + step * 25;
		const room = pick(rooms);
		const here = groups.filter((group) => group.room === room && group.at < at - 60);
		const chance = random();
		const side = (more: number) => {
			const of = [...new Set([pick(here), ...(random() < more ? [pick(here)] : [])])];
			return {
				of: of.map(({ id }, i) => ({
					...{ group: id, standing: (of.length > 1 ? (i ? 'possible' : 'likely') : 'seen') as Standing }
				})),
				others: random() < more / 3,
				number: pick(['one', 'several', 'not known'] as const) as 'one'
			};
		};
		if (here.length && chance < 0.5) {
			club.spawn(`s${step}`, room, { fathers: side(0.6), mothers: side(0.2), young: 12, at });
			groups.push({ id: `s${step}-young`, room, at });
		} else if (here.length && chance < 0.7) {
			const from = pick(here);
			const to = pick(rooms.filter((one) => one !== room));
			const contents = [{ group: random() < 0.8 ? from.id : null, fish: fish(0, 0, 3) }];
			club.bag(`b${step}`, { from: room, to, contents, group: `a${step}`, at });
			groups.push({ id: `a${step}`, room: to, at: at + 1 });
		} else if (here.length && chance < 0.9) {
			const { id } = pick(here);
			const body = { group: id, room, fish: fish(3, 4, Math.floor(random() * 3)), certainty: 'counted' };
			club.say(`${room}-keeper`, 'group/counted', at, body, [id]);
		} else if (here.length && chance < 0.95) {
			const { id } = pick(here);
			const body = { group: id, room, line: 'cory', sort: 'shared net', what: '' };
			club.say(`${room}-keeper`, 'group/mixed', at, body, [id]);
		}
	}
	return club;
}

/** The same, and in it deaths, moves between tanks, all dead and filled again, fish of one shop, bags that got lost. */
export function livelyHistory(seed: number, steps: number): Club {
	const club = breedingHistory(seed, steps);
	const random = seeded(seed + 1000);
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
	const groups = [...club.fold().state.groups.values()].flatMap(({ id, room, started }) =>
		room && started ? [{ id, room, at: (started.when.first - start) / day }] : []
	);
	for (let step = 0; step < steps; step++) {
		const at = 50 + step * 25;
		const room = pick(rooms);
		const here = groups.filter((group) => group.room === room && group.at < at - 1);
		if (here.length === 0) continue;
		const { id } = pick(here);
		const by = `${room}-keeper`;
		const some = fish(Math.floor(random() * 3), Math.floor(random() * 3), Math.floor(random() * 4));
		const chance = random();
		const changed = (why: string, of: ReturnType<typeof fish>) =>
			club.say(by, 'group/changed', at, { group: id, room, fish: of, why, cause: '' }, [id]);
		if (chance < 0.3) changed('died', some);
		else if (chance < 0.4) changed('died', fish(9, 9, 20));
		else if (chance < 0.5) changed('added', some);
		else if (chance < 0.75) {
			const to = pick(here).id;
			if (to !== id) club.say(by, 'group/moved', at, { from: id, to, room, fish: some }, [id, to]);
		} else if (chance < 0.85) {
			const related = pick(['one brood', 'not known', 'unrelated'] as const);
			const origin = { from: 'founders', source: pick(['Shop A', 'shop  a', 'Shop B']), related };
			club.group(`shop ${step}`, room, some, origin, at);
			groups.push({ id: `shop ${step}`, room, at });
		} else if (chance < 0.95) {
			const contents = [{ group: id, fish: some }];
			const to = { to: 'room', room: pick(rooms) };
			club.bagged(by, `gone ${step}`, at, { line: 'cory', contents, fromRoom: room, to });
		}
	}
	return club;
}
