/** What follows for a group from its counts, its changes and the bags its fish went into (SPEC R40 to R46). */
import { countNow } from './countNow.ts';
import { addFish, howManyFish, noFish } from './fishCount.ts';
import type { ThingId } from './entry.ts';
import type { Bag, BagContent, CountChange, Group } from './state.ts';

/**
 * @param ids the group's own id and those joined to it (two arrivals of one bag)
 * @param bags the bags that fish of the group went into, each once
 */
export function finishGroup(group: Group, ids: readonly ThingId[], bags: readonly Bag[]): Group {
	group.stages.sort((a, b) => a.when.last - b.when.last);
	group.stage = group.stages.at(-1)?.stage ?? null;
	for (const bag of bags) group.changes.push(...bagChanges(bag, ids, group.room));
	// A list that grew has room for a dozen more; copied, it takes the room that it needs.
	group.counts = [...group.counts];
	group.changes = [...group.changes];
	group.stages = [...group.stages];
	group.now = countNow(group.counts, group.changes);
	return group;
}

/**
 * Fish leave at *bagged* and come back when the bag is given back unopened. The receiver's word alone takes no fish
 * from the giver's tank, and a room's word none from another room's (SPEC R45).
 */
function bagChanges(bag: Bag, ids: readonly ThingId[], room: ThingId | null): CountChange[] {
	const ofGroup = (content: BagContent) => content.group !== null && ids.includes(content.group);
	const telling = bag.statements
		.filter((one) => one.side !== 'receiver' && one.contents.some(ofGroup))
		.filter((one) => one.fromRoom === null || room === null || one.fromRoom === room);
	const said = telling.find((one) => one.side === 'giver') ?? telling[0];
	if (!said || !bag.baggedAt) return [];
	const fish = said.contents.filter(ofGroup).reduce((sum, content) => addFish(sum, content.fish), noFish);
	if (howManyFish(fish) === 0) return [];
	const change = { bag: bag.id, other: null, cause: '' };
	const base = { entry: said.entry, by: said.by, toldBy: said.toldBy };
	const out: CountChange = {
		...base,
		...change,
		when: bag.baggedAt,
		fish: addFish(noFish, fish, -1),
		why: 'bagged'
	};
	if (!bag.givenBack || bag.arrivals.length) return [out];
	return [out, { ...bag.givenBack, ...change, fish, why: 'given back' }];
}
