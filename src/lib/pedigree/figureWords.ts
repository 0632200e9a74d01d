/** Figures of relatedness as sentences. */
import type { ThingId } from '#records/entry.ts';
import { namesOf } from '#records/names.ts';
import type { ClubState } from '#records/state.ts';
import type { FigureOfGroups } from './kinshipOfGroups.ts';

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

/** "As close as cousins: 0.06, between 0.03 and 0.13, because the father of the brood of March 2026 is one of three." */
export function figureWords(state: ClubState, of: FigureOfGroups, words: string, unknown: boolean): string {
	if (unknown)
		return 'Nothing is shared as far as the record goes, but it does not say where some of these fish came from.';
	const lead = `${words.charAt(0).toUpperCase()}${words.slice(1)}: ${shortFigure(of.expected)}`;
	const open = shortFigure(of.least) !== shortFigure(of.greatest);
	if (!open) return `${lead}.`;
	const because = becauseWords(state, of);
	return `${lead}, between ${shortFigure(of.least)} and ${shortFigure(of.greatest)}${because ? `, because ${because}` : ''}.`;
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

function becauseWords(state: ClubState, of: FigureOfGroups): string {
	const more =
		of.open > 1 ? ` (and ${of.open - 1} more ${of.open === 2 ? 'thing is' : 'things are'} open)` : '';
	if (of.because?.spawn) return broodWords(state, of.because.spawn) + more;
	if (of.because?.group) {
		const names = namesOf(state, null);
		const group = state.groups.get(of.because.group);
		const room = group?.room;
		// "group of …" wants an article; a name that its keeper gave does not.
		const what = `${group && !group.name ? 'the ' : ''}${names.group(of.because.group).replace(/^a /, '')}`;
		return `nobody has said where ${what}${room ? ` in ${names.room(room)}` : ''} came from${more}`;
	}
	return '';
}

function broodWords(state: ClubState, id: ThingId): string {
	const spawn = state.spawns.get(id);
	if (!spawn) return 'the parents of a brood are not known';
	const at = spawn.seen ? new Date(spawn.seen.when.first) : null;
	const brood = at ? `the brood of ${months[at.getUTCMonth()]} ${at.getUTCFullYear()}` : 'a brood';
	const side = (name: 'father' | 'mother') => {
		const set = name === 'father' ? spawn.fathers : spawn.mothers;
		const possible = set.of.filter((one) => one.standing !== 'ruled out').length + (set.others ? 1 : 0);
		if (possible < 2 && set.of.length > 0) return '';
		if (possible < 2) return `the ${name} of ${brood} is not known`;
		return `the ${name} of ${brood} is one of ${numbers[possible] ?? possible}${set.others ? ', one of them perhaps not in the record' : ''}`;
	};
	return side('father') || side('mother') || `the parents of ${brood} are not certain`;
}

function listed(names: readonly string[]): string {
	const last = names.at(-1) ?? '';
	return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}
