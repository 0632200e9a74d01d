import type { LegacyHighs } from 'highs';
import { partnersFigures, possibleBags, type PartnersAsked, type PartnersFigures } from './partners.ts';
import { partnersModel } from './partnersModel.ts';

/** A choice of donors and what it brings. */
export interface PartnersChosen extends PartnersFigures {
	/** The donor of each room, or -1. */
	readonly donor: number[];
	/** The solver has proved that nothing better exists. */
	readonly optimal: boolean;
}

/**
 * Which room should each room get a male from, so that the next broods are least inbred?
 *
 * Method: mixed-integer programming with HiGHS (Huangfu & Hall 2018), branch and bound without a gap; see
 * `partnersModel` for the model.
 *
 * Source: the objective follows Fernandez, Toro & Caballero 2008. Cost: 12 rooms well under a second.
 *
 * @param asked rooms, kinships and limits; all lists as long as there are rooms, at least one
 * @param solver HiGHS, loaded by the caller: it comes as WebAssembly
 * @param seconds how long the solver may look, above 0
 * @returns the best choice; not moving at all when nothing better was found in time
 */
export function choosePartners(asked: PartnersAsked, solver: LegacyHighs, seconds: number): PartnersChosen {
	const stay = asked.males.map(() => -1);
	const bags = possibleBags(asked);
	const nothing = { donor: stay, ...partnersFigures(asked, stay) };
	if (bags.length === 0) return { ...nothing, optimal: true };
	const solution = solver.solve(partnersModel(asked, bags), {
		output_flag: false,
		time_limit: seconds,
		mip_rel_gap: 0,
		mip_abs_gap: 0,
		mip_feasibility_tolerance: 1e-9,
		primal_feasibility_tolerance: 1e-9,
		dual_feasibility_tolerance: 1e-9
	});
	const optimal = solution.Status === 'Optimal';
	const donor = [...stay];
	for (const [b, { from, to }] of bags.entries()) {
		const column = solution.Columns[`b${b}`];
		if (column && 'Primal' in column && (column.Primal ?? 0) > 0.5) donor[to] = from;
	}
	const chosen = { donor, ...partnersFigures(asked, donor) };
	return chosen.objective > nothing.objective ? { ...nothing, optimal } : { ...chosen, optimal };
}
