/** Sons and daughters, that became parents themselves, of parents of one sex. */
export interface FamiliesOfSex {
	/** Breeders of this sex that join in one generation, above 0. */
	readonly breeders: number;
	readonly varianceOfSons: number;
	readonly varianceOfDaughters: number;
	/** Covariance of the numbers of sons and of daughters. */
	readonly covariance: number;
}

/**
 * Effective size of families by sex: what do unequal numbers of sons and daughters do to drift?
 *
 * 1/Ne = [2 + Vmm + 2 (M/F) Cmm,mf + (M/F)² Vmf] / (16 M L) + [2 + (F/M)² Vfm + 2 (F/M) Cfm,ff + Vff] / (16 F L), with
 * M males and F females joining each year, L the generation interval in years, Vmf the variance of the daughters of
 * males. For steady numbers and ages. With chance alone (Vmm = 1, Vmf = F/M, and so on) it is Wright's 4MF/(M + F).
 * Source: Hill (1979), Genetics 92:317 (from memory).
 * Cost: O(1).
 *
 * @param ofMales families of males; `breeders` a year
 * @param ofFemales families of females; `breeders` a year
 * @param generationYears L, above 0; 1 when `breeders` are counted for each generation
 * @returns a number of breeders in a generation
 * @throws RangeError when a number of breeders or the interval is not above 0, or a variance is negative
 * @example
 * const chance = { breeders: 10, varianceOfSons: 1, varianceOfDaughters: 1, covariance: 0 };
 * effectiveSizeOfFamiliesBySex(chance, chance, 1) // => 20
 */
export function effectiveSizeOfFamiliesBySex(
	ofMales: FamiliesOfSex,
	ofFemales: FamiliesOfSex,
	generationYears: number
): number {
	const M = ofMales.breeders;
	const F = ofFemales.breeders;
	const variances = [ofMales, ofFemales].flatMap((sex) => [sex.varianceOfSons, sex.varianceOfDaughters]);
	if (!(M > 0 && F > 0 && generationYears > 0) || !variances.every((variance) => variance >= 0))
		throw new RangeError(
			`effectiveSizeOfFamiliesBySex requires breeders and years above 0 and variances of 0 or more, got ${[M, F, generationYears, ...variances].join(', ')}`
		);
	const males =
		2 +
		ofMales.varianceOfSons +
		2 * (M / F) * ofMales.covariance +
		(M / F) ** 2 * ofMales.varianceOfDaughters;
	const females =
		2 +
		(F / M) ** 2 * ofFemales.varianceOfSons +
		2 * (F / M) * ofFemales.covariance +
		ofFemales.varianceOfDaughters;
	return 1 / (males / (16 * M * generationYears) + females / (16 * F * generationYears));
}
