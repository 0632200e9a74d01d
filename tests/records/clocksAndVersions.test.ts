import { describe, expect, it } from 'vitest';
import { z } from 'zod/mini';
import { Fold } from '#records/fold.ts';
import { defineKind } from '#records/kind.ts';
import { kinds } from '#records/kinds.ts';
import { upgradeBody } from '#records/upgradeBody.ts';
import { foldPicture } from '#tests/helpers/foldPicture.ts';
import { pathsBelow, readSource } from '#tests/architecture/sources.ts';
import { fishOf, newClub } from './story.ts';

const day = 86_400_000;

describe('clocks', () => {
	it('[R10] [R11] a clock that is ahead is put right by the stamp, and told', () => {
		const story = newClub();
		story.start('kim', 'g1', 'r1', 'lA', fishOf(1, 1, 0));
		const ahead = story.count('kim', 'g1', fishOf(2, 2, 0), { clock: story.now + 400 * day, stamped: true });
		const after = story.count('kim', 'g1', fishOf(3, 3, 0));
		const fold = story.fold();
		expect(fold.rankOf(ahead) < fold.rankOf(after)).toBe(true);
		expect(fold.view(ahead)?.clockWrong).toBe(true);
		expect(fold.view(after)?.clockWrong).toBe(false);
		expect(fold.highestTime).toBe(story.now);
	});

	it('[R11] while it is unstamped it stands ahead, and the highest rank says so', () => {
		const story = newClub();
		const later = story.now + 400 * day;
		const ahead = story.count('kim', 'g1', fishOf(2, 2, 0), { clock: later });
		const fold = story.fold();
		expect(fold.highestTime).toBe(later);
		fold.add([{ stamp: story.stampFor(ahead) }]);
		expect(fold.highestTime).toBe(story.now);
	});

	it('[R11] a clock that is behind is taken as it is', () => {
		const story = newClub();
		const behind = story.count('kim', 'g1', fishOf(2, 2, 0), { clock: story.now - 400 * day, stamped: true });
		const fold = story.fold();
		expect(fold.view(behind)?.clockWrong).toBe(false);
		const first = story.inputs[0]?.entry?.id ?? '';
		expect(fold.rankOf(behind) < fold.rankOf(first)).toBe(true);
	});

	it('[R10] entries of one moment stand in the order of their ids', () => {
		const story = newClub();
		const clock = story.now;
		const ids = [1, 2, 3].map(() => story.count('kim', 'g1', fishOf(1, 0, 0), { clock }));
		const fold = story.fold();
		expect(ids.toSorted((a, b) => (fold.rankOf(a) < fold.rankOf(b) ? -1 : 1))).toEqual(ids.toSorted());
	});

	it('[R2] a stamp that comes long before its entry, or an id with two texts, gives the same state', () => {
		const story = newClub();
		const body = { line: 'lA', text: 'round fins', throws: '' };
		story.tell('cora', 'line/standardSet', body);
		const input = story.inputs.at(-1);
		const rest = story.inputs.slice(0, -1);
		const fold = new Fold();
		fold.add(input?.stamp ? [{ stamp: input.stamp }] : []);
		fold.add(rest);
		expect(fold.state.lines.get('lA')?.standard).toBeNull();
		fold.add(input?.entry ? [{ text: JSON.stringify(input.entry) }] : []);
		expect(foldPicture(fold)).toEqual(foldPicture(story.fold()));
		const second = input?.entry && { entry: { ...input.entry, body: { ...body, text: 'long fins' } } };
		const one = story.fold();
		one.add(second ? [second] : []);
		const other = new Fold();
		other.add([...rest, second ?? {}, input ?? {}]);
		expect(foldPicture(one)).toEqual(foldPicture(other));
		expect(one.state.lines.get('lA')?.standard?.text).toBe('long fins');
	});
});

describe('newer and older versions', () => {
	it('[R29] a newer kind or version is kept, not understood, and marks what its envelope names', () => {
		const story = newClub();
		story.start('kim', 'g1', 'r1', 'lA', fishOf(1, 1, 0));
		const body = { group: 'g1', room: null, fish: fishOf(9, 9, 9), certainty: 'counted' };
		const version = story.tell('kim', 'group/counted', body, { version: 2, about: ['g1'] });
		const kind = story.tell('kim', 'group/photographed', {}, { about: ['g1', 'unheard'] });
		const fold = story.fold();
		for (const id of [version, kind]) {
			expect(fold.view(id)?.verdict.name).toBe('not understood');
			expect(fold.view(id)?.verdict.why).toContain('newer version');
		}
		const group = fold.state.groups.get('g1');
		expect(group?.now.fish).toEqual(fishOf(1, 1, 0));
		expect(group?.leftOut).toEqual([version, kind]);
		expect(fold.entry(kind)?.kind).toBe('group/photographed');
		expect(fold.state.groups.has('unheard')).toBe(false);
	});

	it('[R29] a body that is not well formed, or a date that cannot be read, is kept and changes nothing', () => {
		const story = newClub();
		story.start('kim', 'g1', 'r1', 'lA', fishOf(1, 1, 0));
		const malformed = story.tell('kim', 'group/counted', { group: 'g1', fish: 'many' }, { about: ['g1'] });
		const undated = story.count('kim', 'g1', fishOf(3, 0, 0), { happened: 'last week', about: ['g1'] });
		const fold = story.fold();
		const why = [malformed, undated].map((id) => fold.view(id)?.verdict.why);
		expect(why).toEqual([
			'This entry is kept, but it is not well formed.',
			'This entry is kept, but its date cannot be read.'
		]);
		expect(fold.state.groups.get('g1')?.leftOut).toEqual([malformed, undated]);
	});

	it('[R3] a state saved by another version of the fold is not used', () => {
		const saved = newClub().fold().save();
		expect(Fold.restore({ ...saved, foldVersion: saved.foldVersion + 1 })).toBeNull();
	});

	it('[R6] bodies are upgraded step by step, from where they are, and not twice', () => {
		const steps: string[] = [];
		const kind = defineKind({
			kind: 'tank/warmed',
			version: 3,
			nature: 'fact',
			audience: 'club',
			schema: z.object({ degrees: z.number(), scale: z.string() }),
			upgrades: [
				{
					name: 'addScale',
					to: 2,
					up: (body) => (steps.push('addScale'), { ...(body as object), scale: 'F' })
				},
				{
					name: 'useCelsius',
					to: 3,
					up(body) {
						steps.push('useCelsius');
						const { degrees } = body as { degrees: number };
						return { degrees: ((degrees - 32) * 5) / 9, scale: 'C' };
					}
				}
			],
			things: () => [],
			apply: {},
			sentence: () => ''
		});
		expect(upgradeBody(kind, 1, { degrees: 77 })).toEqual({ degrees: 25, scale: 'C' });
		expect(steps).toEqual(['addScale', 'useCelsius']);
		expect(upgradeBody(kind, 2, { degrees: 77, scale: 'F' })).toEqual({ degrees: 25, scale: 'C' });
		expect(upgradeBody(kind, 3, { degrees: 25, scale: 'C' })).toEqual({ degrees: 25, scale: 'C' });
	});

	/** Upgrades that some test names: `'bag/bagged addNote'` beside the body that it upgrades. */
	const uncalled = (upgrades: readonly string[], tests: string) =>
		upgrades.filter((name) => !tests.includes(`'${name}'`));

	it('[R6] every upgrade of every kind is called by a test', () => {
		const upgrades = [...kinds].flatMap(([name, kind]) =>
			(kind.upgrades ?? []).map((step) => `${name} ${step.name}`)
		);
		const tests = pathsBelow('tests/records').map((path) => readSource(path).text);
		expect(uncalled(upgrades, tests.join('\n'))).toEqual([]);
	});

	it('[R6] an upgrade that no test calls is found', () => {
		expect(uncalled(['bag/bagged addNote', 'bag/failed addHow'], "upgrades('bag/failed addHow')")).toEqual([
			'bag/bagged addNote'
		]);
	});

	it('[R6] upgrades end at the version of their kind, in order', () => {
		for (const kind of kinds.values()) {
			const to = (kind.upgrades ?? []).map((step) => step.to);
			expect(to).toEqual(Array.from({ length: kind.version - 1 }, (_, i) => i + 2));
		}
	});
});

it('[R5] a text that is no entry is counted and changes nothing', () => {
	const story = newClub();
	const fold = story.fold();
	const before = foldPicture(fold);
	const good = story.inputs[0]?.entry;
	const texts = [
		'{',
		'null',
		'[]',
		'"x"',
		'{}',
		JSON.stringify({ ...good, id: 'x' }),
		JSON.stringify({ ...good, about: [1] })
	];
	fold.add(texts.map((text) => ({ text })));
	expect(fold.unreadable).toBe(texts.length);
	// An erased row keeps its id and an empty text: nothing to read, nothing to complain of.
	fold.add([{ text: '' }]);
	expect(fold.unreadable).toBe(texts.length);
	expect(foldPicture(fold)).toEqual(before);
});
