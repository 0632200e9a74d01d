import { groupInLine } from '#club/groups/groupInLine.ts';
import type { LineStateSaid } from '#club/lines/lineState.ts';
import type { Range, SeasonHolding, SeasonSource } from '#planning/season/season.ts';
import type { ThingId } from '#records/entry.ts';
import type { Names } from '#records/kind.ts';
import type { ClubState, Group, Line } from '#records/state.ts';
import { cameFrom } from './cameFrom.ts';
import type { FishOfLine } from './fishOfLine.ts';
import type { Breeders, LineMeans } from './lineMeans.ts';
import type { SeasonHoldingWords, SeasonLineWords, SeasonSourceWords } from './seasonWords.ts';
import type { Waiting } from './waitingList.ts';

export interface LineDraftParts {
	readonly sendsAll: boolean;
	readonly means: LineMeans;
	readonly word: LineStateSaid;
	readonly fish: FishOfLine;
	readonly waiting: readonly Waiting[];
}

interface Place {
	readonly room: ThingId;
	readonly groups: readonly Group[];
	readonly breeders: Breeders;
	readonly waiting: number;
}
interface Given {
	readonly group: Group;
	readonly breeders: Breeders;
}

export interface Among {
	readonly before: number;
	readonly all: number;
}

const none: Range = { expected: 0, least: 0, greatest: 0 };
/** A narrower range reads as one figure. */
const narrow = 0.005;

/** One line of a season's problem: its holdings and sources with all means of kinship between them. */
export class LineDraft {
	readonly line: Line;
	readonly word: LineStateSaid;
	readonly sendsAll: boolean;
	readonly fish: FishOfLine;
	readonly #state: ClubState;
	readonly #names: Names;
	readonly #parts: LineDraftParts;
	readonly #places: readonly Place[];
	readonly #given: readonly Given[];

	constructor(state: ClubState, names: Names, line: Line, parts: LineDraftParts) {
		this.line = line;
		this.word = parts.word;
		this.sendsAll = parts.sendsAll;
		this.fish = parts.fish;
		this.#state = state;
		this.#names = names;
		this.#parts = parts;
		const { means, waiting } = parts;
		const waits = (room: ThingId) => waiting.findIndex(({ want }) => want.room === room);
		const held = parts.fish.rooms.map(({ room, groups }) => {
			const breeders = means.breedersOf(groups.map(({ id }) => id));
			return { room, groups, breeders, waiting: waits(room) };
		});
		const holds = new Set(held.map(({ room }) => room));
		// A room whose fish of the line cannot breed on gets none beside them: closed tanks, a suspected mix.
		const busy = new Set(parts.fish.leftOut.map(({ room }) => room));
		const empty = means.breedersOf([]);
		const asking = waiting
			.map(({ want }) => want.room)
			.filter((room) => !holds.has(room) && !busy.has(room) && state.rooms.has(room))
			.map((room) => ({ room, groups: [], breeders: empty, waiting: waits(room) }));
		this.#places = [...held, ...asking].sort((a, b) => (a.room < b.room ? -1 : 1));
		this.#given = parts.fish.sources.map(({ group }) => ({
			group,
			breeders: means.breedersOf([group.id])
		}));
	}

	/** Rooms of its holdings, in their order; sources' rooms are among them. */
	rooms(): ThingId[] {
		return this.#places.map(({ room }) => room);
	}

	holdings(
		line: number,
		placeOf: ReadonlyMap<ThingId, number>
	): { holding: SeasonHolding; words: SeasonHoldingWords }[] {
		const { means, waiting } = this.#parts;
		return this.#places.map((place) => {
			const { males, females, maleFish, femaleFish, both } = place.breeders;
			const ids = place.groups.map(({ id }) => id);
			const isPair = maleFish > 0 && femaleFish > 0;
			const [he, she] = isPair ? [males, females] : [both, both];
			const within = ids.length ? means.range(he, she, ids) : none;
			const asks = waiting[place.waiting];
			return {
				holding: {
					...{ line, room: placeOf.get(place.room)!, males: maleFish, females: femaleFish, within },
					waiting: place.waiting
				},
				words: {
					groups: place.groups.map((group) => ({ id: group.id, name: groupInLine(this.#state, group.id) })),
					waitingSince: asks ? new Date(asks.want.when.first).toISOString().slice(0, 10) : '',
					raisesHolders: asks?.raisesHolders ?? false,
					wide: isWide(within) ? means.why(he, she) : ''
				}
			};
		});
	}

	sources(
		line: number,
		placeOf: ReadonlyMap<ThingId, number>,
		/** How many holdings and sources of other lines stand before this line's, and how many there are in all. */
		among: { readonly holdings: Among; readonly sources: Among }
	): { source: SeasonSource; words: SeasonSourceWords }[] {
		const { means, fish } = this.#parts;
		return this.#given.map(({ group, breeders }, i) => {
			const spare = fish.sources[i]!.spare;
			const own = [group.id];
			const isPair = breeders.maleFish > 0 && breeders.femaleFish > 0;
			const within = isPair
				? means.range(breeders.males, breeders.females, own)
				: means.range(breeders.both, breeders.both, own);
			const given = {
				males: breeders.maleFish ? breeders.males : breeders.both,
				females: breeders.femaleFish ? breeders.females : breeders.both
			};
			const toFemales = this.#places.map(({ breeders: mates, groups }) =>
				means.range(given.males, mates.females, [group.id, ...groups.map(({ id }) => id)])
			);
			const toMales = this.#places.map(({ breeders: mates, groups }) =>
				means.range(given.females, mates.males, [group.id, ...groups.map(({ id }) => id)])
			);
			const toSources = this.#given.map((other, j) =>
				i === j ? within : means.range(breeders.both, other.breeders.both, [group.id, other.group.id])
			);
			const widest = [...toFemales, ...toMales].some(isWide);
			const ownPlace = this.#places.find(({ room }) => room === group.room);
			return {
				source: {
					...{ id: group.id, line, room: placeOf.get(group.room ?? '')!, spare: spare.fish, within },
					withFemales: padded(toFemales, among.holdings),
					withMales: padded(toMales, among.holdings),
					withSources: padded(toSources, among.sources),
					cameFrom: placeOf.get(cameFrom(this.#state, group) ?? '') ?? -1
				},
				words: {
					...{ group: group.id, name: groupInLine(this.#state, group.id), tank: group.tank },
					...{ spareWhy: spare.why, until: spare.why === 'offered' ? (group.spare?.until ?? '') : '' },
					wide: widest ? means.why(breeders.both, ownPlace?.breeders.both ?? breeders.both) : '',
					unknownOrigin: means.isUnknown(group.id)
				}
			};
		});
	}

	/** Mean kinship of its holdings and then its sources, with replacement. */
	matrix(): number[][] {
		const { means } = this.#parts;
		const draws = [...this.#places, ...this.#given].map(({ breeders }) => breeders.both);
		const rows = draws.map((one, i) => draws.slice(0, i + 1).map((other) => means.twice(one, other)));
		return draws.map((_, i) => draws.map((_, j) => (i > j ? rows[i]![j]! : rows[j]![i]!)));
	}

	lineWords(): SeasonLineWords {
		const { id, code, movement } = this.line;
		return {
			...{ id, name: this.#names.line(id), code, movement, sendsAll: this.#parts.sendsAll },
			...{ state: this.word.word, because: this.word.because }
		};
	}
}

function isWide({ least, greatest }: Range): boolean {
	return greatest - least > narrow;
}

/** One line's figures at their places among those of all lines; null = another line. */
function padded(own: readonly Range[], { before, all }: Among): (Range | null)[] {
	return Array.from({ length: all }, (_, i) => own[i - before] ?? null);
}
