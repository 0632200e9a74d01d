/** Figures of relatedness as sentences. */
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import type { SpawnEvent } from '#genetics/groups/event.ts';
import type { LineEvents } from './gathered.ts';
import type { Figure, FigureOpen } from './lineKinship.ts';

const months = [
	'January',
	'February',
	'March',
	'April',
	'May',
	'June',
	'July',
	'August',
	'September',
	'October',
	'November',
	'December'
];
const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** Two decimals: more would say that we know more than we do. */
export function shortFigure(value: number): string {
	return value.toFixed(2);
}

/** A figure and why it is not certain. */
export interface FigureWithWhy extends Figure {
	/** The weightiest open thing as the end of a sentence that begins with "because"; '' = nothing is open. */
	readonly why: string;
}

/** "As close as cousins: 0.06, between 0.03 and 0.13, because the father of the brood of March 2026 is one of three." */
export function figureWords(of: FigureWithWhy, words: string, unknown: boolean): string {
	if (unknown)
		return 'Nothing is shared as far as the record goes, but it does not say where some of these fish came from.';
	const lead = `${words.charAt(0).toUpperCase()}${words.slice(1)}: ${shortFigure(of.expected)}`;
	const open = shortFigure(of.least) !== shortFigure(of.greatest);
	if (!open) return `${lead}.`;
	const between = of.exact ? 'between' : 'surely between';
	return `${lead}, ${between} ${shortFigure(of.least)} and ${shortFigure(of.greatest)}${becauseWords(of.why, of.open.length)}.`;
}

/** ", because … (and 3 more things are open)"; '' when there is nothing to say. */
export function becauseWords(why: string, open: number): string {
	if (!why) return '';
	const more = open > 1 ? ` (and ${open - 1} more ${open === 2 ? 'thing is' : 'things are'} open)` : '';
	return `, because ${why}${more}`;
}

/** One sentence on origins that nobody has said; '' when all are known. */
export function sureWords(state: ClubState, outside: readonly ThingId[]): string {
	if (outside.length === 0) return '';
	const rooms = [...new Set(outside.map((id) => state.groups.get(id)?.room ?? null))];
	const names = namesOf(state, null);
	const named = rooms.filter((room) => room !== null).map((room) => names.room(room));
	const where = named.length ? ` in ${listed(named)}` : '';
	return `The record does not say where the first fish${where} came from; they are taken as one brood, not related to the others.`;
}

/** What is open, as the end of a sentence that begins with "because". */
export function openWords(state: ClubState, events: LineEvents, open: FigureOpen): string {
	const event = events.events[open.event];
	if (event?.kind === 'spawn') return broodWords(state, open.spawn, event);
	if (!open.group) return '';
	const names = namesOf(state, null);
	const group = state.groups.get(open.group);
	// "group of …" wants an article; a name that its keeper gave does not.
	const name = `${group && !group.name ? 'the ' : ''}${names.group(open.group).replace(/^a /, '')}`;
	const what = `${name}${group?.room ? ` in ${names.room(group.room)}` : ''}`;
	const doubts = events.doubts.filter((doubt) => doubt.group === open.group).map((doubt) => doubt.about);
	if (open.about === 'founders') {
		if (doubts.includes('founders') || events.unknownOrigin.has(open.group))
			return `nobody has said where ${what} came from`;
		const source = group?.origin.from === 'founders' ? group.origin.source.trim() : '';
		return `it is only taken that fish from the source “${source}” are related`;
	}
	if (doubts.includes('bag')) return `nobody has said which fish were bagged for ${what}`;
	if (doubts.includes('mix')) return `strangers may be among ${what}`;
	return `more fish were counted in ${what} than the record tells of`;
}

/** "the brood of March 2025" */
export function broodName(state: ClubState, spawn: ThingId | null): string {
	const seen = spawn ? state.spawns.get(spawn)?.seen : null;
	if (!seen) return 'a brood';
	const at = new Date(seen.when.first);
	return `the brood of ${months[at.getUTCMonth()]} ${at.getUTCFullYear()}`;
}

function broodWords(state: ClubState, id: ThingId | null, event: SpawnEvent): string {
	const brood = broodName(state, id);
	const spawn = id ? state.spawns.get(id) : undefined;
	const side = (name: 'father' | 'mother') => {
		const { from } = name === 'father' ? event.fathers : event.mothers;
		const set = name === 'father' ? spawn?.fathers : spawn?.mothers;
		const outside = from.some(({ unit }) => unit === null || unit.endsWith('/outside'));
		if (from.length < 2) return outside && set?.of.length === 0 ? `the ${name} of ${brood} is not known` : '';
		return `the ${name} of ${brood} is one of ${numbers[from.length] ?? from.length}${outside ? ', one of them perhaps not in the record' : ''}`;
	};
	return side('father') || side('mother') || `the parents of ${brood} are not certain`;
}

function listed(names: readonly string[]): string {
	const last = names.at(-1) ?? '';
	return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}
