import { kinshipWords } from '#genetics/words/kinshipWords.ts';
import { KinshipOfGroups } from '#pedigree/kinshipOfGroups.ts';
import { figureWords } from '#pedigree/figureWords.ts';
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { Names } from '#records/kind.ts';
import type { ClubState } from '#records/state.ts';
import { isStanding } from '../lines/holdings.ts';
import { allBags } from './bagRow.ts';

export interface FreshBlood {
	/**
	 * `same`: fish of the same brood or group; `shared`: forebears in common; `none`: nothing shared as far as the
	 * record goes; `unknown`: the record does not say; `other line`, `no fish`, `not found`: cannot be asked.
	 */
	readonly answer: 'same' | 'shared' | 'none' | 'unknown' | 'other line' | 'no fish' | 'not found';
	/** The answer as one or two sentences. */
	readonly sentence: string;
	/** The figure in words; '' where there is none. */
	readonly figure: string;
	readonly bag: { readonly id: ThingId; readonly number: string; readonly line: string } | null;
}

/**
 * Fresh blood: are the fish of this bag, or of this room, new blood for mine, or do they share forebears?
 *
 * Follows the recorded origins of both back to the nearest group that both come from. Works without any signal.
 *
 * @param args.number the number on a bag, as records keep it; or `room`, the seller's room, with `line`
 * @param args.mine the room that would get the fish
 */
export function freshBlood(
	state: ClubState,
	args: { readonly mine: ThingId; readonly number?: string; readonly room?: ThingId; readonly line?: ThingId }
): FreshBlood {
	const names = namesOf(state, null);
	const bag = args.number ? allBags(state).find((one) => one.number === args.number) : undefined;
	const told = bag ? { id: bag.id, number: bag.number, line: bag.line ? names.line(bag.line) : '' } : null;
	const none = (answer: FreshBlood['answer'], sentence: string): FreshBlood => ({
		answer,
		sentence,
		figure: '',
		bag: told
	});
	if (args.number && !bag)
		return none(
			'not found',
			'No bag with this number is on this device. Ask the giver for the line and the room.'
		);
	const line = bag?.line ?? args.line ?? null;
	if (!line) return none('unknown', 'Nobody has said which line is in this bag.');
	const groups = [...new Set(state.groups.values())].filter((group) => group.line === line);
	const own = groups
		.filter((group) => group.room === args.mine && isStanding(group))
		.map((group) => group.id);
	if (own.length === 0)
		return none(
			'no fish',
			`${capital(names.room(args.mine))} has no fish of ${names.line(line)}, so any are new there.`
		);
	const inBag = (bag?.contents ?? []).flatMap((one) =>
		one.group ? [state.groups.get(one.group)?.id ?? one.group] : []
	);
	const from = bag ? bag.fromRoom : (args.room ?? null);
	const theirs = inBag.length
		? [...new Set(inBag)]
		: groups
				.filter((group) => from !== null && group.room === from && isStanding(group))
				.map((group) => group.id);
	if (theirs.length === 0)
		return none('unknown', 'The record does not say which fish these are, so nobody can tell.');
	const kinship = new KinshipOfGroups(state, line);
	const known = theirs.filter((id) => kinship.knows(id));
	if (known.length === 0)
		return none('unknown', 'The record does not say where these fish came from, so nobody can tell.');
	const figure = kinship.between(own, known);
	const shared = nearest(kinship, own, known);
	const open = [...own, ...known].some((id) =>
		[...kinship.forebearsOf(id).keys()].some((one) => kinship.events.unknownOrigin.has(one))
	);
	if (shared) {
		const said = figureWords(figure, kinshipWords(figure.expected).words, false);
		return {
			answer: shared.same ? 'same' : 'shared',
			sentence: sharedWords(shared, names, state),
			figure: said,
			bag: told
		};
	}
	if (open)
		return none(
			'unknown',
			'Nothing shared as far as the record goes, but it does not say where some of these fish came from.'
		);
	return none('none', 'Nothing shared as far as the record goes: this would be new blood.');
}

interface SharedGroup {
	readonly group: ThingId;
	readonly steps: number;
	readonly same: boolean;
}

/** The group that both come from with the fewest steps back. */
function nearest(
	kinship: KinshipOfGroups,
	own: readonly ThingId[],
	theirs: readonly ThingId[]
): SharedGroup | null {
	let best: SharedGroup | null = null;
	for (const a of own)
		for (const b of theirs) {
			const mine = kinship.forebearsOf(a);
			for (const [group, back] of kinship.forebearsOf(b)) {
				const here = mine.get(group);
				if (here === undefined) continue;
				const steps = here + back;
				if (!best || steps < best.steps || (steps === best.steps && group < best.group))
					best = { group, steps, same: isOneFlock(kinship, a, b, group) };
			}
		}
	return best;
}

/** Fish that only moved between rooms are the same flock; young are a step further. */
function isOneFlock(kinship: KinshipOfGroups, a: ThingId, b: ThingId, shared: ThingId): boolean {
	const broods = new Set([...kinship.events.spawnOf.keys()].flatMap((place) => broodsAt(kinship, place)));
	const onlyMoved = (from: ThingId): boolean => {
		if (from === shared) return true;
		if (broods.has(from)) return false;
		const before = [...(kinship.events.cameFrom.get(from) ?? [])];
		return before.length === 1 && before[0] !== undefined && onlyMoved(before[0]);
	};
	return onlyMoved(a) && onlyMoved(b);
}

function broodsAt(kinship: KinshipOfGroups, place: number): ThingId[] {
	const event = kinship.events.events[place];
	return event?.kind === 'spawn' ? event.young.map(({ unit }) => kinship.events.groupOf.get(unit) ?? '') : [];
}

function sharedWords(shared: SharedGroup, names: Names, state: ClubState): string {
	const group = state.groups.get(shared.group);
	const where = group?.room ? ` in ${names.room(group.room)}` : '';
	const name = names.group(shared.group);
	// "brood of …" wants an article; a name that its keeper gave does not.
	const what = `${group && !group.name ? 'the ' : ''}${name.replace(/^a /, '')}${where}`;
	return shared.same
		? `These are of the same fish as yours: both came from ${what}.`
		: `These share forebears with yours: both go back to ${what}.`;
}

function capital(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}
