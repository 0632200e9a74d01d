import type { ParentSet, Standing } from '#records/state.ts';
import type { ParentCandidate, PossibleParents } from '#club/spawns/possibleParents.ts';

/** What a keeper says of the fathers in one tap. */
export interface FatherChoice {
	readonly id: string;
	readonly label: string;
	readonly under: string;
	readonly set: ParentSet;
}

/**
 * Which answers are offered for "Which male?", the honest one first. "Don't know" takes every possible father; each
 * group with males can be named as seen, which leaves the others out.
 */
export function fatherChoices(possible: PossibleParents): FatherChoice[] {
	const old = possible.fathers.filter((each) => !each.tooYoung);
	const unknown: FatherChoice = {
		id: 'unknown',
		label: 'Don’t know which male',
		under: unknownWords(old, possible),
		set: possible.fathersDefault
	};
	const seen = old.map((father) => ({
		id: father.group,
		label: father.here ? 'A male of this tank' : `A male of ${father.name}`,
		under: [father.here ? '' : father.tank, father.fish, father.here ? '' : father.because, 'seen']
			.filter(Boolean)
			.join(' · '),
		set: {
			of: old.map(({ group }) => ({
				group,
				standing: group === father.group ? ('seen' as const) : ('possible' as const)
			})),
			// One male seen does not rule out sperm stored from another.
			others: possible.windowDays > 0 && possible.otherFathers,
			number: 'not known' as const
		}
	}));
	// Where no sperm is stored, the male that was seen is the father.
	const sure = seen.map((choice) =>
		possible.windowDays > 0
			? choice
			: {
					...choice,
					set: {
						of: choice.set.of.filter(({ group }) => group === choice.id),
						others: false,
						number: 'not known' as const
					}
				}
	);
	return [unknown, ...sure];
}

function unknownWords(old: readonly ParentCandidate[], possible: PossibleParents): string {
	const months = Math.round(possible.windowDays / 30.4);
	const stored = months > 2 ? `, looked back ${months} months for stored sperm` : '';
	if (old.length === 0) return `Father not known${stored}`;
	const names = old
		.map((each) => `${each.here ? 'this tank' : each.name}${each.fish ? ` (${each.fish})` : ''}`)
		.join(', ');
	return `Possible: ${names}${possible.otherFathers ? ', perhaps others' : ''}${stored}`;
}

/** A set anew from standings given one by one; groups without one are left out. */
export function parentSetFrom(
	standings: ReadonlyMap<string, Standing | 'out'>,
	others: boolean,
	number: ParentSet['number'] = 'not known'
): ParentSet {
	const of = [...standings].flatMap(([group, standing]) => (standing === 'out' ? [] : [{ group, standing }]));
	return { of, others, number };
}
