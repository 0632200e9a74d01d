/** One line in several rooms, each of which may get one male from another. Rooms are numbered from 0. */
export interface PartnersAsked {
	/** Breeding males of each room, at least 0. A room without males neither gives nor takes one. */
	readonly males: readonly number[];
	/** theta[i][j]: mean kinship, 0 to 1, of a fish of room i and one of room j; i = j: of two fish of the room. */
	readonly theta: readonly (readonly number[])[];
	/** How many bags each room can give. */
	readonly bagsOutMax: readonly number[];
	/** How many bags each room can take: 0, or more; it never takes more than one. */
	readonly bagsInMax: readonly number[];
	/** [from, to]: bags that must not be. */
	readonly forbidden: readonly (readonly [number, number])[];
	/** A donor at least this related to the room is too close. */
	readonly maxIncomingKinship: number;
	/** tripCost[from][to], at least 0; absent: trips cost nothing. */
	readonly tripCost?: readonly (readonly number[])[] | undefined;
	/** The costs of all bags together stay at or below this; absent: no limit. */
	readonly tripBudget?: number | undefined;
	/** Weight of the kinship within the whole line, 0 or more, beside the mean inbreeding of the next broods. */
	readonly lambdaGlobal: number;
}

/** What a choice of donors brings. */
export interface PartnersFigures {
	readonly objective: number;
	/** Mean over rooms of the inbreeding of the next brood. */
	readonly meanNextInbreeding: number;
	/** c'theta c, c being the mean over rooms of where the next genes come from. */
	readonly globalKinship: number;
}

/** One possible bag. */
export interface PossibleBag {
	readonly from: number;
	readonly to: number;
	readonly cost: number;
}

/**
 * Which bags are allowed at all?
 *
 * Source: own choice of hard limits. Cost: rooms^2.
 *
 * @returns every allowed bag, ordered by the room it goes to, then by the one it comes from
 */
export function possibleBags(asked: PartnersAsked): PossibleBag[] {
	const { males, theta, bagsOutMax, bagsInMax, forbidden, maxIncomingKinship, tripCost, tripBudget } = asked;
	const banned = new Set(forbidden.map(([from, to]) => `${from} ${to}`));
	const bags: PossibleBag[] = [];
	for (let to = 0; to < males.length; to++) {
		if (males[to]! < 1 || bagsInMax[to]! < 1) continue;
		for (let from = 0; from < males.length; from++) {
			if (from === to || males[from]! < 1 || bagsOutMax[from]! < 1 || banned.has(`${from} ${to}`)) continue;
			if (theta[from]![to]! >= maxIncomingKinship) continue;
			const cost = tripCost?.[from]?.[to] ?? 0;
			if (cost <= (tripBudget ?? Infinity)) bags.push({ from, to, cost });
		}
	}
	return bags;
}

/**
 * What do these donors bring?
 *
 * Method: one male of the donor replaces one of the room's m males, so F = (1 - 1/m) theta[j][j] + (1/m)
 * theta[donor][j]; half of a share 1/m of the room's next genes comes from the donor.
 *
 * Source: Wright 1922 for the brood, Ballou & Lacy 1995 for the kinship of the whole. Cost: rooms^2.
 *
 * @param donor the donor of each room, or -1
 */
export function partnersFigures(asked: PartnersAsked, donor: readonly number[]): PartnersFigures {
	const { males, theta, lambdaGlobal } = asked;
	const rooms = males.length;
	const origin = new Float64Array(rooms);
	let inbreeding = 0;
	for (let room = 0; room < rooms; room++) {
		const from = donor[room]!;
		const share = from < 0 ? 0 : 1 / males[room]!;
		inbreeding += (1 - share) * theta[room]![room]! + (from < 0 ? 0 : share * theta[from]![room]!);
		origin[room]! += (1 - share / 2) / rooms;
		if (from >= 0) origin[from]! += share / 2 / rooms;
	}
	let globalKinship = 0;
	for (let i = 0; i < rooms; i++)
		for (let j = 0; j < rooms; j++) globalKinship += origin[i]! * origin[j]! * theta[i]![j]!;
	const meanNextInbreeding = inbreeding / rooms;
	return { objective: meanNextInbreeding + lambdaGlobal * globalKinship, meanNextInbreeding, globalKinship };
}
