import { addFish, fishText, howManyFish, noFish } from '#records/fishCount.ts';
import type { CountChange } from '#records/state.ts';

const whys: { readonly [Why in CountChange['why']]: string } = {
	died: 'died',
	lost: 'gone, nobody knows where',
	rehomed: 'to a new home',
	'put down': 'put down',
	'let go': 'let go',
	added: 'added',
	moved: 'moved',
	bagged: 'bagged',
	'given back': 'back from a bag',
	arrived: 'arrived',
	hatched: 'hatched'
};

/** "3? fewer, died: heater", "2m more, added", "1f fewer, moved to Colony". */
export function changeWords(
	change: Pick<CountChange, 'fish' | 'why' | 'cause'> & { readonly otherName?: string }
): string {
	const fewer = howManyFish(change.fish) < 0;
	const fish = fewer ? addFish(noFish, change.fish, -1) : change.fish;
	const other = change.otherName ? ` ${fewer ? 'to' : 'from'} ${change.otherName}` : '';
	const cause = change.cause ? `: ${change.cause}` : '';
	return `${fishText(fish)} ${fewer ? 'fewer' : 'more'}, ${whys[change.why]}${other}${cause}`;
}
