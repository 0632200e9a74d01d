/** The words of this record and what keepers also call the same thing, so that everyone finds it. */
export interface TradeWord {
	readonly word: string;
	readonly means: string;
	readonly also: string;
}

export const tradeWords: readonly TradeWord[] = [
	{
		word: 'line',
		means: 'Fish that are kept pure together, in many rooms.',
		also: 'strain, population, locality, stock'
	},
	{ word: 'conservation line', means: 'A species or one locality, never crossed.', also: '' },
	{ word: 'colour or fin strain', means: 'Fish bred for a look.', also: '' },
	{
		word: 'locality',
		means: 'Where the first fish came from.',
		also: 'population, collection code, location'
	},
	{
		word: 'room',
		means: 'The place where somebody keeps fish. One heater, one room.',
		also: 'fish room, fish house'
	},
	{ word: 'keeper', means: 'A person who keeps a room.', also: 'breeder, fishkeeper' },
	{ word: 'holder', means: 'The room that has a line now.', also: '' },
	{
		word: 'coordinator',
		means: 'Looks after one line for the club; the deputy helps.',
		also: 'species rep, line captain'
	},
	{ word: 'group', means: 'Fish that live together and are counted together.', also: 'colony, tank' },
	{
		word: 'breeding group',
		means: 'A pair, a trio or more that are meant to breed.',
		also: 'harem, colony, reverse trio'
	},
	{ word: 'spawn', means: 'Eggs that were laid.', also: 'spawning, batch' },
	{ word: 'drop', means: 'Young born to a livebearer.', also: 'batch' },
	{ word: 'brood', means: 'The young of one spawn or drop.', also: 'fry batch, hatch' },
	{ word: 'mother, father', means: 'Seen, likely or possible; several may be possible.', also: 'dam, sire' },
	{ word: 'egg bag', means: 'Eggs in damp peat, to be wetted on a date.', also: 'peat bag' },
	{ word: 'bag', means: 'Fish on the way. Its number is never used twice.', also: 'lot, packet' },
	{ word: 'exchange', means: 'A plan to move fish: one gives, one receives.', also: 'swap, trade, loan' },
	{ word: 'hand-over', means: 'A bag changes hands.', also: '' },
	{ word: 'spare fish', means: 'Fish that others may have.', also: 'surplus, extras' },
	{ word: 'pet fish', means: 'Fish that will not breed for the line.', also: 'petting out' },
	{ word: 'suspected mix', means: 'A doubt whether fish of two lines met.', also: 'contaminated, crossed' },
	{ word: 'planned outcross', means: 'A cross made on purpose.', also: 'outcross, new blood' },
	{ word: 'crossed by accident', means: 'A cross nobody wanted.', also: 'hybrid, mongrel' },
	{ word: 'count by look', means: 'How many of a brood show which colour or fins.', also: 'tally' },
	{
		word: 'line standard',
		means: 'What a good fish of the line looks like.',
		also: 'standard, bench standard'
	},
	{ word: 'still have them?', means: 'The question that keeps a line’s rooms confirmed.', also: 'census' },
	{ word: '2m 3f 6?', means: 'Two males, three females, six not sexed. You may type 2.3.6.', also: '2.3.6' }
];
