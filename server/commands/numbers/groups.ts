/** `npm run numbers -- groups`: kinship of fish that are kept, bred, split and mixed in groups. */
import { groupEventProblems } from '#genetics/groups/groupEventProblems.ts';
import { groupKinship } from '#genetics/groups/groupKinship.ts';
import { inbreedingOf } from '#genetics/groups/inbreedingOf.ts';
import { kinshipBetween } from '#genetics/groups/kinshipBetween.ts';
import { kinshipWithin } from '#genetics/groups/kinshipWithin.ts';
import { kinshipWithSelf } from '#genetics/groups/kinshipWithSelf.ts';
import type { GroupKinship } from '#genetics/groups/table.ts';
import { eventOf, schema, type Asked } from './groupsInput.ts';
import { quoted, read, type Problem, type Question } from './question.ts';

/** What can be wrong with events that the input can say; anything else is told by its code. */
const sentences: Readonly<Record<string, ((ids: string) => string) | undefined>> = {
	unitTwice: (ids) => `${ids} is named as a new group more than once. Give each its own id.`,
	unitUnknown: (ids) => `${ids} is used before any event tells of it. Check the id or the order of events.`,
	unitEmptied: (ids) => `All fish have left ${ids} by then. Name the group they went to.`,
	countNotWhole: (ids) => `The count of ${ids} must be a whole number of at least 1.`,
	notEnoughFish: (ids) => `${ids} has too few fish for that. Check the counts.`,
	nothingNamed: () => 'A spawn without parents or young, or a merge of nothing: name at least one.',
	candidateTwice: (ids) => `A group stands twice in one list of ${ids}. Name each once.`,
	weightsNotOne: (ids) => `The weights of ${ids} must be from 0 to 1 and sum to 1.`,
	notAShare: (ids) => `The kinship of ${ids} must be from 0 to 1.`
};

export const groups: Question = (given) => {
	const form = read(schema, given);
	if ('problems' in form) return form;
	const events = form.input.events.map(eventOf);
	const found = groupEventProblems(events);
	if (found.length > 0)
		return { problems: found.map(({ code, ids }) => ({ code, ids, sentence: sentenceOf(code, ids) })) };
	const table = groupKinship(events);
	const problems = form.input.ask.flatMap((asked) => askProblems(table, asked));
	if (problems.length > 0) return { problems };
	return { answer: { answers: form.input.ask.map((asked) => answerOf(table, asked)) } };
};

function sentenceOf(code: string, ids: readonly string[]): string {
	const names = ids.map(quoted).join(', ') || 'the parents';
	return sentences[code]?.(names) ?? `The events do not fit together at ${names} (${code}).`;
}

function unitsOf(asked: Asked): readonly string[] {
	if ('inbreeding' in asked) return asked.inbreeding;
	if ('within' in asked) return asked.within;
	return 'withSelf' in asked ? asked.withSelf : asked.between;
}

function answerOf(table: GroupKinship, asked: Asked): number {
	if ('inbreeding' in asked) return inbreedingOf(table, asked.inbreeding);
	if ('within' in asked) return kinshipWithin(table, asked.within);
	if ('withSelf' in asked) return kinshipWithSelf(table, asked.withSelf);
	return kinshipBetween(table, [asked.between[0]], [asked.between[1]]);
}

function askProblems(table: GroupKinship, asked: Asked): Problem[] {
	const units = unitsOf(asked);
	const problem = (code: string, ids: readonly string[], sentence: string) => ({ code, ids, sentence });
	if (units.length === 0)
		return [problem('nothingNamed', [], 'A question names no group. Name at least one.')];
	const names = units.map(quoted).join(', ');
	const unknown = units.filter((unit) => !table.index.has(unit));
	if (unknown.length > 0)
		return unknown.map((unit) =>
			problem('unitUnknown', [unit], `${quoted(unit)} is asked about, but no event tells of it.`)
		);
	if (new Set(units).size < units.length)
		return [problem('unitTwice', units, `One group is asked about twice in ${names}. Name each once.`)];
	const place = (unit: string) => table.index.get(unit)!;
	const emptied = units.filter((unit) => table.emptied[place(unit)]);
	if (units.length > 1 && emptied.length > 0 && !('between' in asked))
		return emptied.map((unit) =>
			problem(
				'unitEmptied',
				[unit],
				`All fish have left ${quoted(unit)}: together with others ask about the group they went to.`
			)
		);
	const fish = units.reduce((sum, unit) => sum + table.count[place(unit)]!, 0);
	if ('within' in asked && fish < 2)
		return [
			problem('notEnoughFish', units, `${names} has one fish only; "within" needs two different fish.`)
		];
	return [];
}
