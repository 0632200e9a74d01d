import { describe, expect, it } from 'vitest';
import { Fold, type FoldInput } from '#records/fold.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { randomHistory, shuffled } from '#tests/helpers/randomHistory.ts';

const seeds = Array.from({ length: 60 }, (_, i) => i + 1);

function foldOf(inputs: readonly FoldInput[]): Fold {
	const fold = new Fold();
	fold.add(inputs);
	return fold;
}

describe('the fold is order-free', () => {
	it.each(seeds)('[R1] any order of arrival gives the same state (seed %i)', (seed) => {
		const { inputs } = randomHistory(seed, 160);
		const expected = foldPicture(foldOf(inputs));
		const oneByOne = new Fold();
		for (const input of shuffled(inputs, seed)) oneByOne.add([input]);
		expect(foldPicture(oneByOne)).toEqual(expected);
		const inParts = new Fold();
		const mixed = shuffled(inputs, seed + 1000);
		for (let i = 0; i < mixed.length; i += 17) inParts.add(mixed.slice(i, i + 17));
		expect(foldPicture(inParts)).toEqual(expected);
	});

	it.each(seeds)('[R2] sending twice, and stamps apart from entries, changes nothing (seed %i)', (seed) => {
		const { inputs } = randomHistory(seed, 120);
		const expected = foldPicture(foldOf(inputs));
		const apart = inputs.flatMap((input): FoldInput[] => [
			{ entry: input.entry },
			...(input.stamp ? [{ stamp: input.stamp }] : [])
		]);
		const fold = new Fold();
		for (const input of shuffled([...apart, ...inputs], seed)) fold.add([input]);
		expect(foldPicture(fold)).toEqual(expected);
	});

	it.each(seeds)('[R3] a saved state and the rest give the fold of all (seed %i)', (seed) => {
		const { inputs } = randomHistory(seed, 120);
		const expected = foldPicture(foldOf(inputs));
		const mixed = shuffled(inputs, seed);
		const half = foldOf(mixed.slice(0, 70));
		const restored = Fold.restore(structuredClone(half.save()));
		expect(restored).not.toBeNull();
		restored?.add(mixed.slice(70));
		expect(restored && foldPicture(restored)).toEqual(expected);
	});

	it.each(seeds.slice(0, 20))('[R4] an entry taken out again leaves no trace (seed %i)', (seed) => {
		const { inputs } = randomHistory(seed, 80);
		const last = inputs.at(-1)?.entry;
		const fold = foldOf(inputs);
		fold.remove(last?.id ?? '');
		expect(foldPicture(fold)).toEqual(foldPicture(foldOf(inputs.slice(0, -1))));
	});
});
