/**
 * A male for every female of a room, males used alike, so that mates are as little related as can be.
 *
 * Greedy, then two females change males as long as that helps: not always the very least, but near it and cheap.
 *
 * @param males at least 1; females likewise
 * @param kinship of a male and a female, by their places
 * @param mates written to: for each female the place of her male
 */
export function leastRelatedMates(
	males: number,
	females: number,
	kinship: (male: number, female: number) => number,
	mates: Int32Array
): void {
	const mostUsed = Math.ceil(females / males);
	const used = new Uint8Array(males);
	for (let female = 0; female < females; female++) {
		let best = -1;
		let least = Infinity;
		for (let male = 0; male < males; male++) {
			if (used[male]! >= mostUsed) continue;
			// One that has had fewer is taken before one that is a little less related.
			const cost = kinship(male, female) + 2 * used[male]!;
			if (cost < least) [best, least] = [male, cost];
		}
		mates[female] = best;
		used[best]!++;
	}
	for (let better = true; better;) {
		better = false;
		for (let a = 0; a < females; a++) {
			for (let b = 0; b < a; b++) {
				const [one, other] = [mates[a]!, mates[b]!];
				const gain = kinship(one, a) + kinship(other, b) - kinship(other, a) - kinship(one, b);
				if (gain <= 1e-12) continue;
				[mates[a], mates[b]] = [other, one];
				better = true;
			}
			for (let free = 0; free < males; free++) {
				const now = mates[a]!;
				if (used[free] !== 0 || kinship(now, a) - kinship(free, a) <= 1e-12) continue;
				mates[a] = free;
				used[now]!--;
				used[free]!++;
				better = true;
			}
		}
	}
}
