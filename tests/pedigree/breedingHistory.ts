/** A line bred in four rooms for some years, from a seed: unsure fathers, bags, moves, counts, mixes. */
import type { Standing } from '#records/state.ts';
import { seeded } from '#tests/helpers/randomHistory.ts';
import { Club, fish } from './builders.ts';

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
