/**
 * The cautions, each shown once at its moment and short. They hold no advice on treatment and no doses. Wording is
 * common practice, no source; where a text stands behind one, it is named at it.
 */

/** Ends every caution. */
export const cautionEnding =
	'Rules differ by place and change. Check local law; for illness ask an aquatic veterinarian.';

export interface CautionText {
	readonly title: string;
	readonly text: string;
}

export const cautions = {
	surplus: {
		title: 'Never release fish, plants, eggs or tank water outdoors.',
		text: 'Ask the waiting list, a shop or another club first. If no home can be found, a recognised, humane method is the last way.'
	},
	receiving: {
		title: 'Keep new fish apart for 28 days.',
		text: 'Quarantine has started by itself. It starts again on any new sign or death; keep fish that cannot be replaced apart for 42 to 60 days. Use their own net.'
	},
	arrival: {
		title: 'Into quarantine, never straight into the breeding tank.',
		text: 'Float the bag, add tank water in steps, net the fish, pour the bag water down the drain. After a long closed trip move them quickly into matched water and do not bubble air through the bag water. Lights off and no food that night.'
	},
	border: {
		title: 'Crossing a border, selling in public or showing?',
		text: 'Movement, sale, transport and health papers may be needed, and some species are restricted or banned.'
	},
	listed: {
		title: 'This is a listed species.',
		text: 'Keep proof of legal origin with the line. Permits may be needed even for captive-bred fish.'
	},
	native: {
		title: 'This is a native fish.',
		text: 'Many places forbid collecting, keeping or returning native fish without a permit. Returning fish to the wild is for authorities.'
	},
	restricted: {
		title: 'This species is restricted in some places.',
		text: 'Find out whether it may be kept and moved where you are, and where it is going.'
	},
	illness: {
		title: 'Stop moving fish from this tank.',
		text: 'Close the tank here, so that nobody plans with its fish. This record gives no advice on treatment: many fish medicines need a prescription, and nobody should pass on medicated fish without saying so.'
	},
	ring: {
		title: 'An illness goes round with the fish.',
		text: 'It can reach every room before the ring has gone round once, and nobody is to blame. A closed tank gives nothing. Keep newcomers apart first, have a net for each tank, and keep one group of the line outside the ring.'
	},
	packing: {
		title: 'Pack only healthy fish.',
		text: 'Keep the bag warm or cool as they need it, do not sedate them, and use two bags for spiny fish.'
	},
	endOfLife: {
		title: 'Ask a vet about humane killing.',
		text: 'Never flush a fish.'
	},
	wetHands: {
		title: 'Cover cuts on your hands.',
		text: 'Some fish bacteria can infect people through the skin.'
	},
	electricity: {
		title: 'Water and power.',
		text: 'Use a residual-current breaker and let every cable hang in a loop below its socket.'
	},
	minors: {
		title: 'Is the keeper a child?',
		text: 'A parent or guardian gives consent and is the contact.'
	}
} as const satisfies Record<string, CautionText>;

export type CautionMoment = keyof typeof cautions;
