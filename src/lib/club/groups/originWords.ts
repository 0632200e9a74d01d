import { bagNumberText } from '#records/bagNumberText.ts';
import type { Names } from '#records/kind.ts';
import type { ClubState, Origin } from '#records/state.ts';

/** Where did these fish come from, in words that fit after "Came"? */
export function originWords(state: ClubState, origin: Origin | null, names: Names): string {
	switch (origin?.from) {
		case 'founders': {
			const related = { unrelated: ', not related', 'one brood': ', one brood', 'not known': '' }[
				origin.related
			];
			return `as founders${origin.source ? ` from ${origin.source}` : ''}${related}`;
		}
		case 'brood': {
			const spawn = state.spawns.get(origin.spawn);
			return spawn?.inGroup ? `as young of ${names.group(spawn.inGroup)}` : 'as young of this room';
		}
		case 'bag': {
			const bag = state.bags.get(origin.bag);
			const from = bag?.fromRoom ? `from ${names.room(bag.fromRoom)}` : 'from a room not said';
			return bag?.number ? `${from}, bag ${bagNumberText(bag.number)}` : from;
		}
		case 'group':
			return `from ${origin.groups.map((group) => names.group(group)).join(' and ')}`;
		case 'list':
			return 'from an old list';
		default:
			return 'from a place not known';
	}
}
