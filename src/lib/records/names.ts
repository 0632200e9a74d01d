/** Plain words for things, for sentences and lists; a thing not heard of yet has a word too. */
import { bagNumberText } from './bagNumberText.ts';
import type { EntryId } from './entry.ts';
import type { Fold } from './fold.ts';
import { kinds } from './kinds.ts';
import type { Names } from './kind.ts';
import { readBody } from './readBody.ts';
import type { ClubState, Group } from './state.ts';

export function namesOf(state: ClubState, fold: Pick<Fold, 'entry'> | null): Names {
	const names: Names = {
		line: (id) => state.lines.get(id)?.name || 'a line not heard of yet',
		room: (id) => state.rooms.get(id)?.name || 'a room not heard of yet',
		group: (id) => groupName(state, state.groups.get(id)),
		bag: (id) => {
			const number = state.bags.get(id)?.number;
			return number ? `bag ${bagNumberText(number)}` : 'a bag without a number';
		},
		member: (id) => (id === 'club' ? 'the club' : state.members.get(id)?.name || 'someone not heard of yet'),
		meeting: (id) => state.meetings.get(id)?.name || 'a meeting not heard of yet',
		exchange: (id) => {
			const exchange = state.exchanges.get(id);
			return exchange?.line ? `an exchange of ${names.line(exchange.line)}` : 'an exchange not heard of yet';
		},
		entry: (id) => sentenceOf(fold?.entry(id) ?? null, names, new Set([id]))
	};
	return names;
}

/** The sentence of an entry; one that this app does not know says so. */
export function sentenceOf(
	entry: { id: EntryId; kind: string; version: number; body: unknown } | null,
	names: Names,
	seen: ReadonlySet<EntryId> = new Set()
): string {
	if (!entry) return 'an entry that has not come yet';
	const kind = kinds.get(entry.kind);
	const { body, problem } = readBody(entry, kind ?? null);
	if (!kind || problem !== '') return 'An entry that this app does not understand.';
	const guarded: Names = {
		...names,
		entry: (id) => (seen.has(id) && seen.size > 1 ? 'an entry' : names.entry(id))
	};
	return kind.sentence(body, guarded);
}

function groupName(state: ClubState, group: Group | undefined): string {
	if (!group) return 'a group not heard of yet';
	if (group.name) return group.name;
	const line = group.line ? state.lines.get(group.line)?.name : '';
	const words = { laid: 'eggs', eyed: 'eyed eggs', hatched: 'wigglers', 'free-swimming': 'fry' } as Record<
		string,
		string
	>;
	const what = group.origin.from === 'brood' ? (words[group.stage ?? ''] ?? 'brood') : 'group';
	return line ? `${what} of ${line}` : `a ${what}`;
}
