/** Fish are kept together as a group from now on: founders, bought fish, part of another group, or from an old list. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { countSaid, said, stageSaid } from '../../said.ts';
import { fishText, howManyFish } from '../../fishCount.ts';
import type { Told } from '../../kind.ts';
import type { Fish, Group, Origin } from '../../state.ts';
import { certainty, fish, id, longText, shortText, stage } from '../../shapes.ts';

const origin = z.discriminatedUnion('from', [
	z.object({
		from: z.literal('founders'),
		source: shortText,
		related: z.enum(['unrelated', 'one brood', 'not known'])
	}),
	z.object({ from: z.literal('brood'), spawn: id }),
	z.object({ from: z.literal('bag'), bag: id }),
	z.object({ from: z.literal('group'), groups: z.array(id).check(z.minLength(1), z.maxLength(20)) }),
	z.object({ from: z.literal('list'), row: longText }),
	z.object({ from: z.literal('not known') })
]);

export const groupStarted = defineKind({
	kind: 'group/started',
	version: 1,
	nature: 'fact',
	audience: 'club',
	partInEach: true,
	schema: z.object({
		group: id,
		line: id,
		room: id,
		name: shortText,
		/** Where it stands, in the keeper's words. */
		tank: shortText,
		origin,
		/** No fish and not `counted` = nobody has looked. */
		fish,
		certainty,
		stage: z.nullable(stage)
	}),
	/** Groups that fish were taken from lose them: a split is told in one entry. */
	things: (body) => [
		{ type: 'group', id: body.group },
		...(body.origin.from === 'group'
			? body.origin.groups.map((group) => ({ type: 'group' as const, id: group }))
			: [])
	],
	places: (body) => [
		[body.group, body.room],
		[body.line, body.room]
	],
	line: (body) => body.line,
	apply: {
		group(group, told) {
			const { body } = told;
			if (group.id !== body.group) {
				takeFrom(group, told);
				return;
			}
			group.line = body.line;
			group.room = body.room;
			group.name = body.name;
			group.tank = body.tank;
			group.origin = body.origin as Origin;
			group.started = said(told);
			// No fish and not counted = nobody has looked: a group that stands, its number not known.
			if (howManyFish(body.fish) > 0 || body.certainty === 'counted')
				group.counts.push(countSaid(told, body.fish, body.certainty));
			if (body.stage) group.stages.push(stageSaid(told, body.stage));
		}
	},
	sentence(body, names) {
		const looked = howManyFish(body.fish) > 0 || body.certainty === 'counted';
		const of = `${looked ? fishText(body.fish) : 'fish'} of ${names.line(body.line)}`;
		return body.origin.from === 'list'
			? `From an old list: ${names.room(body.room)} has ${of}.`
			: `${names.room(body.room)} keeps ${of} as a group.`;
	}
});

/** Fish taken from several groups at once: which came from which is not known, so only a single source loses them. */
function takeFrom(
	group: Group,
	told: Told<{ group: string; origin: { from: string; groups?: string[] }; fish: Fish }>
): void {
	if (told.body.origin.groups?.length !== 1) return;
	const { males, females, unsexed } = told.body.fish;
	group.changes.push({
		...said(told),
		fish: { males: -males, females: -females, unsexed: -unsexed },
		why: 'moved',
		cause: '',
		bag: null,
		other: told.body.group
	});
}
