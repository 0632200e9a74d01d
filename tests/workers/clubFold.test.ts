import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Audience, Entry } from '#records/entry.ts';
import type { FoldInput } from '#records/fold.ts';
import { ClubFold } from '#workers/clubFold.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { randomHistory, uuid7 } from '#tests/helpers/randomHistory.ts';
import { randomFrom } from '#genetics/drop/randomFrom.ts';

const seed = 1922;
const rooms: readonly Audience[] = ['room:r1:one', 'room:r2:one', 'officers'];

/** An entry as a document gives it. */
function itemOf(entry: Entry) {
	return { text: JSON.stringify(entry), entry };
}

function addClub(fold: ClubFold, inputs: readonly FoldInput[]): void {
	for (const { entry, stamp } of inputs)
		fold.add('club', { items: entry ? [itemOf(entry)] : [], stamps: stamp ? [stamp] : [] });
}

/**
 * What rooms and officers write among themselves about the club's entries: honest words, and from a device that does
 * not keep the rules, entries that would change what everybody sees: counts, corrections, a role, a known id with
 * other words.
 */
function privateEntries(inputs: readonly FoldInput[], of: number): Entry[] {
	const random = randomFrom(of);
	return inputs.flatMap(({ entry }, index): Entry[] => {
		if (!entry || random() < 0.5) return [];
		const id = random() < 0.2 ? entry.id : uuid7(Date.UTC(2024, 5, 1) + index, 5_000_000 + index);
		const envelope = { id, version: 1, by: 'm1', device: 'm1-phone', happened: '2024-06-01', about: [] };
		const words = { room: 'r1', text: 'why', explains: entry.id, group: 'g1' };
		const fish = { males: 0, females: 0, unsexed: 0 };
		const count = { group: 'g1', room: 'r1', fish, certainty: 'counted' };
		const role = { member: 'm1', role: 'officer', of: null, askedBy: null };
		const kinds: Entry[] = [
			{ ...envelope, kind: 'room/privateWords', body: words },
			{ ...envelope, kind: 'group/counted', body: count, corrects: [entry.id] },
			{ ...envelope, kind: 'word/withdrawn', body: { reason: '' }, corrects: [entry.id] },
			{ ...envelope, kind: 'club/roleGiven', by: 'club', body: role }
		];
		return [kinds[Math.floor(random() * kinds.length)]!];
	});
}

describe('the club’s state and what is private', () => {
	it(`[R1] is the same with and without the documents of rooms, for every member (seed ${seed})`, () => {
		fc.assert(
			fc.property(fc.nat(1e6), fc.integer({ min: 20, max: 80 }), (of, size) => {
				const { inputs } = randomHistory(of, size);
				const outsider = new ClubFold();
				addClub(outsider, inputs);
				const reader = new ClubFold();
				const secrets = privateEntries(inputs, of);
				const random = randomFrom(of + 1);
				const audienceOf = new Map(secrets.map((entry) => [entry, rooms[Math.floor(random() * 3)]!]));
				let told = 0;
				for (const input of inputs) {
					// Private documents come before, between and after.
					while (told < secrets.length && random() < 0.4) tell(secrets[told++]!);
					addClub(reader, [input]);
				}
				for (const entry of secrets.slice(told)) tell(entry);
				function tell(entry: Entry): void {
					reader.add(audienceOf.get(entry)!, { items: [itemOf(entry)], stamps: [] });
				}
				expect(foldPicture(reader.fold)).toEqual(foldPicture(outsider.fold));
				const read = [...reader.privateEntries.values()].flatMap((entries) => [...entries.keys()]);
				expect(new Set(read)).toEqual(new Set(secrets.map(({ id }) => id)));
				// Taken back before it was shared, private words leave the club's state alone as well.
				const mine = secrets.filter(({ id }) => !inputs.some(({ entry }) => entry?.id === id));
				reader.remove(mine.map(({ id }) => id));
				expect(foldPicture(reader.fold)).toEqual(foldPicture(outsider.fold));
			}),
			{ seed, numRuns: 40 }
		);
	});
});
