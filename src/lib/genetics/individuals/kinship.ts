import { requireParentsFirst, type Pedigree } from './pedigree.ts';

/**
 * Kinship of single fish: how related is every fish to every other?
 *
 * Tabular method, row by row: kinship with an older fish is the mean over the parents' rows, with itself
 * (1 + kinship of the parents) / 2, with a younger fish the mean over that fish's parents, found inside the same row;
 * an unknown parent adds 0. No column is touched, so that memory is written in one sweep. Exact in double precision;
 * in single precision (give a `Float32Array`) sums of halves are exact to about 1e-7.
 * Source: Wright (1922), American Naturalist 56:330; Emik & Terrill (1949), Journal of Heredity 40:51;
 * Cruden (1949), Journal of Heredity 40:248. Differs from them in: the order in which cells are filled (own).
 * Cost: O(n²) time, O(n²) memory for n fish: meant for some thousands; rows and pairs have cheaper functions.
 *
 * @param pedigree parents before young, n fish
 * @param into memory to fill, of n² places or more, so that it can be used again: fresh memory costs more than the
 *   arithmetic. A new `Float64Array` if absent
 * @returns `into`: n rows of n one after the other, symmetric; place i * n + j is the kinship of fish i and j
 * @throws RangeError when a parent does not come before its young or `into` is too short
 * @example
 * const young = ['x', 'y'].map((id) => ({ id, mother: 'm', father: 'f' }));
 * const old = ['m', 'f'].map((id) => ({ id, mother: null, father: null }));
 * kinship(orderedPedigree([...old, ...young]))[2 * 4 + 3] // => 0.25
 */
export function kinship(pedigree: Pedigree): Float64Array;
export function kinship<Memory extends Float32Array | Float64Array>(pedigree: Pedigree, into: Memory): Memory;
export function kinship(pedigree: Pedigree, into?: Float32Array | Float64Array): Float32Array | Float64Array {
	requireParentsFirst(pedigree, 'kinship');
	const n = pedigree.ids.length;
	const table = into ?? new Float64Array(n * n);
	if (table.length < n * n)
		throw new RangeError(`kinship requires ${n * n} places of memory, got ${table.length}`);
	// One machine routine for each kind of memory: mixed kinds in one loop would run several times slower.
	if (table instanceof Float32Array) fillSingle(table, pedigree);
	else fillDouble(table, pedigree);
	return table;
}

function fillDouble(table: Float64Array, { mother, father }: Pedigree): void {
	const n = mother.length;
	for (let i = 0; i < n; i++) {
		const row = table.subarray(i * n, i * n + n);
		const m = mother[i]!;
		const f = father[i]!;
		let parents = 0;
		if (m >= 0 && f >= 0) {
			const ofMother = table.subarray(m * n, m * n + n);
			const ofFather = table.subarray(f * n, f * n + n);
			parents = ofMother[f]!;
			for (let j = 0; j < i; j++) row[j] = (ofMother[j]! + ofFather[j]!) / 2;
		} else if (m >= 0 || f >= 0) {
			const known = Math.max(m, f);
			const ofKnown = table.subarray(known * n, known * n + n);
			for (let j = 0; j < i; j++) row[j] = ofKnown[j]! / 2;
		} else row.fill(0, 0, i);
		row[i] = (1 + parents) / 2;
		for (let j = i + 1; j < n; j++) {
			const jm = mother[j]!;
			const jf = father[j]!;
			row[j] = ((jm < 0 ? 0 : row[jm]!) + (jf < 0 ? 0 : row[jf]!)) / 2;
		}
	}
}

/** As `fillDouble`, made quick for thousands of fish: rows of brothers and sisters are copied as far as they agree. */
function fillSingle(table: Float32Array, { mother, father }: Pedigree): void {
	const n = mother.length;
	// An unknown parent is looked up right behind the row, where a 0 is put: one question less for each cell.
	const places = () => (n < 2 ** 16 ? new Uint16Array(n) : new Int32Array(n));
	const mothers = places();
	const fathers = places();
	for (let i = 0; i < n; i++) {
		mothers[i] = mother[i]! < 0 ? n : mother[i]!;
		fathers[i] = father[i]! < 0 ? n : father[i]!;
	}
	for (let i = 0; i < n; i++) {
		const at = i * n;
		const row = table.subarray(at, at + n + 1);
		const m = mother[i]!;
		const f = father[i]!;
		const ofMother = m < 0 ? null : table.subarray(m * n, m * n + n);
		const ofFather = f < 0 ? null : table.subarray(f * n, f * n + n);
		const isSibOfLast = i > 0 && m === mother[i - 1] && f === father[i - 1] && (m >= 0 || f >= 0);
		if (isSibOfLast) {
			table.copyWithin(at, at - n, at - 1);
			row[i - 1] = ((ofMother?.[i - 1] ?? 0) + (ofFather?.[i - 1] ?? 0)) / 2;
		} else if (ofMother && ofFather) meanOfTwo(row, ofMother, ofFather, i);
		else if (ofMother || ofFather) halfOfOne(row, (ofMother ?? ofFather)!, i);
		else row.fill(0, 0, i);
		row[i] = (1 + (ofMother && f >= 0 ? ofMother[f]! : 0)) / 2;
		if (i === n - 1) break;
		row[n] = 0;
		meansWithin(row, mothers, fathers, i + 1, n);
	}
}

function meanOfTwo(row: Float32Array, one: Float32Array, other: Float32Array, end: number): void {
	for (let j = 0; j < end; j++) row[j] = Math.fround(one[j]! + other[j]!) * 0.5;
}

function halfOfOne(row: Float32Array, one: Float32Array, end: number): void {
	for (let j = 0; j < end; j++) row[j] = one[j]! * 0.5;
}

/** Fills a row from `j` on; four at a time, as each looks back only to parents, which may be among the four. */
function meansWithin(
	row: Float32Array,
	mothers: Uint16Array | Int32Array,
	fathers: Uint16Array | Int32Array,
	begin: number,
	n: number
): void {
	let j = begin;
	for (; j + 3 < n; j += 4) {
		row[j] = Math.fround(row[mothers[j]!]! + row[fathers[j]!]!) * 0.5;
		row[j + 1] = Math.fround(row[mothers[j + 1]!]! + row[fathers[j + 1]!]!) * 0.5;
		row[j + 2] = Math.fround(row[mothers[j + 2]!]! + row[fathers[j + 2]!]!) * 0.5;
		row[j + 3] = Math.fround(row[mothers[j + 3]!]! + row[fathers[j + 3]!]!) * 0.5;
	}
	for (; j < n; j++) row[j] = Math.fround(row[mothers[j]!]! + row[fathers[j]!]!) * 0.5;
}
