/** Pedigrees for the bench, made from a seed: a population of many years in which generations overlap. */
import { randomFrom } from '#genetics/drop/randomFrom.ts';
import type { Pedigree } from '#genetics/individuals/pedigree.ts';

export interface PedigreeShape {
	readonly fish: number;
	/** As many fish are born in each. */
	readonly years: number;
	/** Parents are 1 to so many years old when their young are born. */
	readonly oldestParent: number;
	/** Young of one mother and one father, born together: from 1 to twice this number less one, all as likely. */
	readonly meanBrood: number;
	readonly seed: number;
}

/** One fish in so many is a male. */
const oneMaleIn = 4;
/** One mother, and one father, in so many is not known. */
const oneUnknownIn = 30;

/** Parents before young; parents are drawn by chance from all fish of their sex that are old enough. */
export function benchPedigree({ fish, years, oldestParent, meanBrood, seed }: PedigreeShape): Pedigree {
	const random = randomFrom(seed);
	const whole = (below: number) => Math.floor(random() * below);
	const perYear = Math.ceil(fish / years);
	const mother = new Int32Array(fish).fill(-1);
	const father = new Int32Array(fish).fill(-1);
	for (let i = perYear; i < fish;) {
		const thisYear = Math.floor(i / perYear) * perYear;
		const from = Math.max(0, thisYear - oldestParent * perYear);
		const parent = (isMale: boolean) => {
			if (whole(oneUnknownIn) === 0) return -1;
			for (;;) {
				const one = from + whole(thisYear - from);
				if ((one % oneMaleIn === 0) === isMale) return one;
			}
		};
		const of = { mother: parent(false), father: parent(true) };
		const end = Math.min(fish, thisYear + perYear, i + 1 + whole(2 * meanBrood - 1));
		for (; i < end; i++) {
			mother[i] = of.mother;
			father[i] = of.father;
		}
	}
	return { ids: Array.from({ length: fish }, (_, i) => `${i}`), mother, father };
}

/** The shape in words, for whoever reads the figures. */
export function shapeWords({ years, oldestParent, meanBrood, seed }: PedigreeShape): string {
	const broods = meanBrood === 1 ? 'each young of a brood of its own' : `broods of ${meanBrood} in the mean`;
	return (
		`${years} years, parents 1 to ${oldestParent} years old drawn by chance, one male in ${oneMaleIn}, ` +
		`${broods}, one parent in ${oneUnknownIn} not known, seed ${seed}`
	);
}
