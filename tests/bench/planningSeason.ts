/** A club to plan a season for, made from a seed: rooms that have bred lines on, with the kinships that came of it. */
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import type { GroupEvent, ParentSide, UnitId } from '#genetics/groups/event.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { drawDifferent, drawTwo, type GroupKinship } from '#genetics/groups/table.ts';
import type { Range, SeasonHolding, SeasonProblem, SeasonSource } from '#planning/season/season.ts';

export interface SeasonShape {
	readonly rooms: number;
	readonly lines: number;
	/** Groups with fish to spare, over all lines. */
	readonly groups: number;
	readonly seed: number;
}

const generations = 5;
const perBrood = 8;

interface RoomsFish {
	readonly room: number;
	readonly males: UnitId;
	readonly females: UnitId;
}

/** One line: four founding pairs, five generations in some rooms, a bag now and then; fathers not always known. */
function bred(
	rooms: readonly number[],
	random: () => number
): { table: GroupKinship; broods: RoomsFish[][] } {
	const events: GroupEvent[] = [];
	const founders = Array.from({ length: 4 }, (_, i) => ({
		males: `founder ${i}m`,
		females: `founder ${i}f`
	}));
	for (const { males, females } of founders)
		for (const unit of [males, females]) events.push({ kind: 'founders', unit, count: 2, within: 0.25 });
	const side = (...units: UnitId[]): ParentSide => ({
		from: units.map((unit) => ({ unit, weight: 1 / units.length })),
		draw: random() < 0.5 ? 'one' : 'several'
	});
	let now = rooms.map((room) => ({ room, ...founders[Math.floor(random() * founders.length)]! }));
	const broods: RoomsFish[][] = [];
	for (let generation = 1; generation <= generations; generation++) {
		const young = now.map(({ room, males, females }, i): RoomsFish => {
			const other = now[Math.floor(random() * now.length)]!;
			const unit = (sex: string) => `${generation}.${i}${sex}`;
			const fathers = random() < 0.3 && other.males !== males ? side(males, other.males) : side(males);
			events.push({
				...{ kind: 'spawn', fathers, mothers: side(females) },
				young: [
					{ unit: unit('m'), count: perBrood / 2 },
					{ unit: unit('f'), count: perBrood / 2 }
				]
			});
			return { room, males: unit('m'), females: unit('f') };
		});
		broods.push(young);
		now = young;
	}
	return { table: groupKinship(events), broods };
}

/** The problem of such a club: every sort of limit is there, as a club of this size would have it. */
export function benchSeason({ rooms, lines, groups, seed }: SeasonShape): SeasonProblem {
	const random = randomFrom(seed);
	const below = (n: number) => Math.floor(random() * n);
	const perLine = Math.ceil(groups / lines);
	const drafts = Array.from({ length: lines }, (_, line) => {
		const count = Math.min(rooms, Math.max(3, Math.round((rooms * 2) / 5) + below(3)));
		const homes = Array.from({ length: rooms }, (_, room) => ({ room, at: random() }))
			.sort((a, b) => a.at - b.at)
			.slice(0, count)
			.map(({ room }) => room);
		const { table, broods } = bred(homes, random);
		const holders = broods.at(-1)!;
		const givers = broods.slice(-3).flat().reverse().slice(0, perLine);
		const wants = Array.from({ length: rooms }, (_, room) => room)
			.filter((room) => !homes.includes(room))
			.slice(0, 2);
		return { line, table, holders, givers, wants };
	});
	const open = (value: number): Range => {
		const wide = random() < 0.4 ? 0.05 + random() * 0.1 : 0;
		return { expected: value, least: Math.max(0, value - wide), greatest: Math.min(1, value + wide / 2) };
	};
	const holdings: (SeasonHolding & { readonly fish: RoomsFish | null })[] = drafts.flatMap(
		({ line, table, holders, wants }) => [
			...holders.map((fish) => ({
				...{ line, room: fish.room, males: 4, females: 4, waiting: -1, fish },
				within: open(between(table, fish.males, fish.females))
			})),
			...wants.map((room, waiting) => ({
				...{ line, room, males: 0, females: 0, waiting, fish: null },
				within: { expected: 0, least: 0, greatest: 0 }
			}))
		]
	);
	const given = drafts.flatMap(({ line, givers }) => givers.map((fish) => ({ line, fish })));
	const sources: SeasonSource[] = given.map(({ line, fish }, s) => {
		const { table } = drafts[line]!;
		const to = (other: RoomsFish | null, own: UnitId, sex: 'males' | 'females') =>
			other ? open(between(table, own, other[sex])) : open(0);
		return {
			...{ id: `group ${s}`, line, room: fish.room, cameFrom: random() < 0.2 ? below(rooms) : -1 },
			spare: { males: 1 + below(3), females: below(3), unsexed: random() < 0.3 ? 6 : 0 },
			within: open(between(table, fish.males, fish.females)),
			withFemales: holdings.map((one) => (one.line === line ? to(one.fish, fish.males, 'females') : null)),
			withMales: holdings.map((one) => (one.line === line ? to(one.fish, fish.females, 'males') : null)),
			withSources: given.map((one) =>
				one.line === line ? open(between(table, fish.males, one.fish.females)) : null
			)
		};
	});
	const regions = Array.from({ length: rooms }, () => below(4));
	return {
		rooms: Array.from({ length: rooms }, (_, room) => ({
			...{ id: `room ${room}`, bagsOut: 3, bagsIn: 2, tanksFree: 1 + below(3) },
			...{ isClosed: random() < 0.08, balance: below(5) - 2 }
		})),
		lines: drafts.map(({ line, table, holders }) => ({
			...{ id: `line ${line}`, holders: holders.length, wantedHolders: holders.length + below(3) },
			kinship: kinshipOf(
				table,
				holdings.filter((one) => one.line === line).map(({ fish }) => fish),
				given.filter((one) => one.line === line).map(({ fish }) => fish)
			)
		})),
		holdings: holdings.map(({ fish: _, ...holding }) => holding),
		sources,
		tripCost: regions.map((one, i) => regions.map((other, j) => (i === j ? 0 : one === other ? 1 : 2))),
		apart: rooms > 4 ? [[0, 3]] : [],
		...{ outcrosses: [], banned: [] },
		wishes: [
			{ id: 'trips', wish: 'trips', most: rooms },
			{ id: 'fair', wish: 'fair', most: 3 }
		],
		weights: {
			...{ lambda: 10, worstCase: 0.5, trip: 0.01, bag: 0.005 },
			...{ holder: 0.5, waiting: 0.2, closeMates: 0.05, sendBack: 0.01 }
		},
		...{ tooClose: 0.25, bagOfOneSex: 2, bagOfUnsexed: 6 },
		foundingBag: { males: 2, females: 3, unsexed: 12 }
	};
}

function between(table: GroupKinship, one: UnitId, other: UnitId): number {
	return drawDifferent(table, table.index.get(one)!, table.index.get(other)!);
}

function kinshipOf(
	table: GroupKinship,
	holdings: readonly (RoomsFish | null)[],
	sources: readonly RoomsFish[]
): number[][] {
	const draws = [...holdings, ...sources].map((fish) =>
		fish ? [fish.males, fish.females].map((unit) => table.index.get(unit)!) : []
	);
	return draws.map((one) =>
		draws.map((other) => {
			if (one.length === 0 || other.length === 0) return 0;
			const all = one.flatMap((a) => other.map((b) => drawTwo(table, a, b)));
			return all.reduce((sum, value) => sum + value, 0) / all.length;
		})
	);
}
