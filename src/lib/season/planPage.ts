import { exchangeRow, type ExchangeRow } from '#club/exchanges/exchangeRow.ts';
import { partIn } from '#club/people/partIn.ts';
import { isStanding } from '#club/lines/holdings.ts';
import { lineKinships } from '#pedigree/lineKinships.ts';
import type { Range } from '#planning/season/season.ts';
import type { ThingId } from '#records/entry.ts';
import { addFish, noFish } from '#records/fishCount.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState, Exchange, Fish } from '#records/state.ts';
import { LineMeans } from './lineMeans.ts';
import { planStep, type PlanStep } from './planStep.ts';
import { exchangesByPlan, holesOf, planRow, type PlanRow } from './plansList.ts';
import type { SeasonAsking } from './seasonAsking.ts';

export interface PlannedBag extends ExchangeRow {
	readonly step: PlanStep;
	/** Sentence and figures that it was proposed with. */
	readonly reason: string;
	/** What arrived alive so far; null = nothing has arrived. */
	readonly arrived: Fish | null;
	/** The bag that goes the other way between the same rooms, by its exchange; '' = none. */
	readonly back: ThingId;
	/** Still to be filled: somebody said no, or it came to nothing. */
	readonly isHole: boolean;
}
export interface PlannedRoom {
	readonly room: ThingId;
	readonly roomName: string;
	readonly line: ThingId;
	readonly lineName: string;
	/** Inbreeding of the room's next young as planned, without the plan and with it; null = not told. */
	readonly before: number | null;
	readonly planned: number | null;
	/** The same by the fish that are there now; null = nothing has come by this plan yet, or no pair. */
	readonly now: Range | null;
	/** Something came, and nothing more is to come. */
	readonly isDone: boolean;
}
export interface PlanPage extends PlanRow {
	readonly rows: readonly PlannedBag[];
	/** Planned against done, for each room that was to get fish. */
	readonly rooms: readonly PlannedRoom[];
	/** May plan the holes again and send: looks after all of its lines, or is an officer. */
	readonly mayRepair: boolean;
}

/** Plan page: how far is each bag of a plan, and what did it come to? Null = no such plan. */
export function planPage(
	state: ClubState,
	{ plan }: { readonly plan: ThingId },
	asking: SeasonAsking
): PlanPage | null {
	const exchanges = exchangesByPlan(state).get(plan);
	if (!exchanges) return null;
	const names = namesOf(state, null);
	const holes = new Set(holesOf(state, exchanges, asking.now));
	const row = planRow(state, plan, exchanges, asking);
	const { officer } = partIn(state, asking.me, null, null);
	const rows = exchanges.map((one): PlannedBag => {
		const told = exchangeRow(state, one, names, asking);
		const arrivals = one.bags.flatMap((id) => state.bags.get(id)?.arrivals ?? []);
		return {
			...told,
			step: planStep(told.now.word),
			reason: one.reason,
			arrived: arrivals.length ? arrivals.reduce((sum, { alive }) => addFish(sum, alive), noFish) : null,
			back: exchanges.find((other) => isBack(one, other))?.id ?? '',
			isHole: holes.has(one)
		};
	});
	return {
		...row,
		rows,
		rooms: roomsOf(state, exchanges, rows),
		mayRepair: officer || row.lines.every(({ id }) => partIn(state, asking.me, null, id).coordinates)
	};
}

function isBack(one: Exchange, other: Exchange): boolean {
	return (
		one !== other &&
		other.gives.some(({ fromRoom }) => fromRoom === one.toRoom) &&
		one.gives.some(({ fromRoom }) => fromRoom === other.toRoom)
	);
}

function roomsOf(
	state: ClubState,
	exchanges: readonly Exchange[],
	rows: readonly PlannedBag[]
): PlannedRoom[] {
	const names = namesOf(state, null);
	const lines = [...new Set(exchanges.flatMap(({ line }) => line ?? []))].sort();
	return lines.flatMap((line) => {
		const means = new LineMeans(lineKinships.of(state, line));
		const ofLine = exchanges.filter((one) => one.line === line);
		const rooms = [...new Set(ofLine.flatMap(({ toRoom }) => toRoom ?? []))].sort();
		return rooms.map((room): PlannedRoom => {
			const here = ofLine.filter(({ toRoom }) => toRoom === room);
			const hasCome = here.some(({ id }) => rows.find((one) => one.id === id)?.arrived);
			const told = here.flatMap(({ plan }) => plan?.expects ?? []).at(-1);
			const groups = [...new Set(state.groups.values())]
				.filter((group) => group.line === line && group.room === room && isStanding(group))
				.filter((group) => means.kinship.knows(group.id) && !group.closed && group.mixes.length === 0)
				.map(({ id }) => id)
				.sort();
			const { males, females, maleFish, femaleFish } = means.breedersOf(groups);
			return {
				...{ room, roomName: names.room(room), line, lineName: names.line(line) },
				before: told && told.before !== null ? told.before / 10_000 : null,
				planned: told ? told.after / 10_000 : null,
				// Before anything came, a figure reckoned anew beside the planned one would read as what the plan did.
				now: hasCome && maleFish && femaleFish ? means.range(males, females, groups) : null,
				isDone: isDone(here.map(({ id }) => rows.find((one) => one.id === id)?.step))
			};
		});
	});
}

function isDone(steps: readonly (PlanStep | undefined)[]): boolean {
	const ended = steps.every((step) => step === 'done' || step === 'declined' || step === 'over');
	return ended && steps.includes('done');
}
