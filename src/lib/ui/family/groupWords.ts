/** What a drawing shows, in words: for the table, for those who listen, and for the sheet of one group. */
import type { Family, FamilyGroup, FamilyMove, FamilyParents, FamilySpawn } from '#pedigree/family/family.ts';
import { countAloud } from '#ui/shared/countAloud.ts';
import { bagNumberText } from '#records/bagNumberText.ts';
import { fishText, howManyFish } from '#records/fishCount.ts';
import { shortDate } from './familyGraph.ts';

/** "2m 3f", "about 6?", "none left", "died", "not counted". */
export function fishShown(group: FamilyGroup): string {
	if (group.standing === 'dead') return 'died';
	if (group.standing === 'gone') return 'none left';
	if (group.standing === 'not known' || group.certainty === 'not known') return 'not counted';
	return `${group.certainty === 'about' ? 'about ' : ''}${fishText(group.fish)}`;
}

/** The number inside a symbol; '' for one fish, and where nobody counted. */
export function numberInside(group: FamilyGroup): string {
	const fish = group.standing === 'living' ? group.fish : (group.began ?? group.fish);
	const many = howManyFish(fish);
	return group.single || many < 2 ? '' : String(many);
}

export interface Origin {
	/** "father: X or Y; mother: Z" or "out of a bag from X". */
	readonly words: string;
	readonly related: boolean;
}

/** Where the fish of a group came from, in one or two sentences. */
export function originOf(family: Family, group: FamilyGroup): Origin {
	const spawn = family.spawns.find((one) => one.brood === group.id);
	const moves = family.moves.filter((move) => move.to === group.id);
	const said = [spawn ? parentsWords(family, spawn) : '', ...moves.map((move) => moveWords(family, move))];
	const words = said.filter(Boolean).join(' ');
	return { words: words || firstWords(group), related: (spawn?.parentsRelated ?? 0) > 1e-9 };
}

function parentsWords(family: Family, spawn: FamilySpawn): string {
	const verb = spawn.sort === 'drop' ? 'Dropped' : 'Young';
	const at = shortDate(spawn.at);
	const sides = [
		`Mother: ${sideWords(family, spawn.mothers)}.`,
		`Father: ${sideWords(family, spawn.fathers)}.`
	];
	return `${verb}${at ? `, ${at}` : ''}. ${sides.join(' ')}`;
}

function sideWords(family: Family, side: FamilyParents): string {
	const possible = side.of.filter((one) => one.standing !== 'ruled out');
	if (possible.length === 0) return 'not known';
	const names = possible.map(({ group, standing }) => {
		const name = nameOf(family, group);
		return standing === 'seen' || side.certain ? name : `${name} (${standing})`;
	});
	if (side.others) names.push('one not in the record');
	const joined = names.join(side.number === 'several' ? ' and ' : ' or ');
	return side.derived ? `${joined}, as they lived with her` : joined;
}

function moveWords(family: Family, move: FamilyMove): string {
	const from = nameOf(family, move.from);
	const at = shortDate(move.at);
	const when = at ? `, ${at}` : '';
	const perhaps = move.certain ? '' : 'perhaps ';
	if (move.kind === 'bag')
		return `In bag${move.bagNumber ? ` ${bagNumberText(move.bagNumber)}` : ''}, ${perhaps}from ${from}${when}.`;
	if (move.kind === 'split') return `A part of ${from}${when}.`;
	return `${perhaps ? 'Perhaps with' : 'With'} fish of ${from}${when}.`;
}

function firstWords(group: FamilyGroup): string {
	if (group.from === 'founders')
		return group.source ? `First fish: ${group.source}.` : 'First fish of the line.';
	return 'Where it came from is not known.';
}

export function nameOf(family: Family, id: string): string {
	return family.groups.find((group) => group.id === id)?.name ?? 'a group not heard of';
}

/** All of it in one breath, for a screen reader on the symbol. */
export function groupAloud(family: Family, group: FamilyGroup): string {
	const there =
		group.standing === 'living' && group.certainty !== 'not known'
			? countAloud(group.fish)
			: fishShown(group);
	const mixed = group.suspectedMix ? ' Something may have got mixed.' : '';
	const room = group.roomName ? `, ${group.roomName}` : '';
	return `${group.name}${room}, ${there}. ${originOf(family, group).words}${mixed}`;
}
