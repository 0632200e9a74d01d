/**
 * Difference between rooms: which share of the diversity lies between rooms that exchange some fish?
 *
 * F_ST = (1 - m)² / (2 N - (2 N - 1)(1 - m)²), the steady state of many rooms of N breeders each, of which a share m
 * comes from other rooms in each generation; about 1 / (4 N m + 1). One migrant a generation leaves about a fifth
 * between rooms, whatever their size.
 * Source: Wright (1931), Genetics 16:97 (from memory); Mills & Allendorf (1996), Conservation Biology 10:1509, for one
 * to ten migrants as a rule.
 * Cost: O(1).
 *
 * @param size N, breeders in each room, at least 1/2
 * @param migration m, share of breeders that comes from other rooms, 0 to 1
 * @returns 0 to 1
 * @throws RangeError when a number is out of its range
 * @example
 * differenceBetweenRooms(10, 0.1).toFixed(6) // => '0.175705'
 */
export function differenceBetweenRooms(size: number, migration: number): number {
	if (!(size >= 0.5 && migration >= 0 && migration <= 1))
		throw new RangeError(
			`differenceBetweenRooms requires a size of 1/2 or more and a share from 0 to 1, got ${size} and ${migration}`
		);
	const stay = (1 - migration) ** 2;
	return stay / (2 * size - (2 * size - 1) * stay);
}
