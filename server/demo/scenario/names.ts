/** The demo club's names: an invented club, with invented people, places, strains and localities. */

export const club = { name: 'Averlow Vale Line Keepers', timeZone: 'Europe/London', region: 'Averlow Vale' };

/** `joins`, `leaves`: months since the record began. The first member opened the club. */
export interface MemberPlan {
	readonly key: string;
	readonly name: string;
	readonly joins: number;
	readonly leaves?: number;
}

export const members = [
	{ key: 'maud', name: 'Maud Ferring', joins: 0 },
	{ key: 'tobin', name: 'Tobin Ashgrove', joins: 0 },
	{ key: 'hette', name: 'Hette Marrin', joins: 0 },
	{ key: 'ines', name: 'Ines Wollander', joins: 0 },
	{ key: 'piet', name: 'Piet Wollander', joins: 0 },
	{ key: 'bram', name: 'Bram Tessel', joins: 0 },
	{ key: 'reed', name: 'reedbed', joins: 0 },
	{ key: 'fenn', name: 'Fenn Odgers', joins: 0 },
	{ key: 'cyrus', name: 'Cyrus Vane', joins: 0, leaves: 28 },
	{ key: 'sanna', name: 'Sanna Brookle', joins: 0 },
	{ key: 'bucket', name: 'old_bucket', joins: 1 },
	{ key: 'oda', name: 'Oda Linnet', joins: 7 },
	{ key: 'jory', name: 'Jory Linnet', joins: 11 },
	{ key: 'wim', name: 'Wim Achterby', joins: 17 },
	{ key: 'nell', name: 'Nell Quarrie', joins: 33 }
] as const satisfies readonly MemberPlan[];
export type MemberKey = (typeof members)[number]['key'];

export interface RoomPlan {
	readonly key: string;
	readonly name: string;
	readonly region: string;
	/** Rooms of one house share a heater. */
	readonly house: string;
	readonly keepers: readonly MemberKey[];
	readonly opens: number;
}

export const rooms = [
	{ key: 'harbour', name: 'Harbour Shed', region: 'Ostrel Coast', house: '', keepers: ['maud'], opens: 0 },
	{ key: 'spring', name: 'Spring House', region: 'Tamsel Hills', house: '', keepers: ['hette'], opens: 0 },
	{
		key: 'mill',
		name: 'Mill Cellar',
		region: 'Averlow Vale',
		house: '',
		keepers: ['ines', 'piet'],
		opens: 0
	},
	{ key: 'orchard', name: 'Orchard Garage', region: 'Averlow Vale', house: '', keepers: ['bram'], opens: 0 },
	{ key: 'attic', name: 'Attic Room', region: 'Quillmarsh', house: '', keepers: ['reed'], opens: 0 },
	{ key: 'peat', name: 'Peat Corner', region: 'Quillmarsh', house: '', keepers: ['fenn'], opens: 0 },
	{ key: 'signal', name: 'Signal Box', region: 'Tamsel Hills', house: '', keepers: ['cyrus'], opens: 0 },
	{ key: 'brook', name: 'Brook End', region: 'North Pellow', house: '', keepers: ['sanna'], opens: 0 },
	{ key: 'barn', name: 'Long Barn', region: 'North Pellow', house: '', keepers: ['bucket'], opens: 1 },
	{
		key: 'lower',
		name: 'Lantern House, downstairs',
		region: 'Averlow Vale',
		house: 'Lantern House',
		keepers: ['oda'],
		opens: 7
	},
	{
		key: 'upper',
		name: 'Lantern House, upstairs',
		region: 'Averlow Vale',
		house: 'Lantern House',
		keepers: ['jory'],
		opens: 11
	},
	{ key: 'yard', name: 'Cooper’s Yard', region: 'Ostrel Coast', house: '', keepers: ['wim'], opens: 17 },
	{ key: 'nook', name: 'Window Nook', region: 'Ostrel Coast', house: '', keepers: ['nell'], opens: 33 }
] as const satisfies readonly RoomPlan[];
export type RoomKey = (typeof rooms)[number]['key'];

/** What stood on the list found later: nobody has been asked yet. */
export const laterList: readonly (readonly [room: RoomKey, unsexed: number, row: string])[] = [
	['brook', 8, 'pep. cory - S. Brookle - 8 - since 2019?'],
	['harbour', 5, 'pep. cory - Maud - about 5'],
	['barn', 12, 'pepp cory, bucket, a dozen']
];

export const tankPlaces = [
	'rack 1, left',
	'rack 1, right',
	'rack 2, left',
	'rack 2, middle',
	'rack 2, right',
	'by the door',
	'bottom row',
	'window side',
	'the long tank',
	'tub 3'
];
export const deathCauses = [
	'',
	'',
	'',
	'old age',
	'jumped',
	'not seen why',
	'filter stopped',
	'heater stuck',
	'thin'
];
export const meetingPlace = 'Averlow, the Weavers’ Hall';
export const guests = ['a visitor from North Pellow', 'the school pond club', 'a guest of Tobin’s'];
export const outsideRooms = ['a keeper in another club', 'the river museum'];
export const countSlips = [
	'I counted two of them twice.',
	'Typed one digit too many.',
	'Found more behind the filter.',
	'Mixed up the two tanks on the sheet.'
];
export const exchangeReasons = [
	'No new blood there for two generations.',
	'The two groups share no grandparents that we know of.',
	'That room has only one male left.',
	'A second bag placed early is better than a late one.'
];
export const noReasons = [
	'No tank free until spring.',
	'Away that month.',
	'I would rather wait for the next brood.'
];
export const roomWords = [
	'Took out the four bent ones. I did not want to put that on the sheet.',
	'The heater in the back row is not to be trusted. Buy a new one.',
	'Worried about this tank: thin backs, no spots. Watch for a week.',
	'These go to the left tank only. I forget every time.'
];
export const officerNotes = [
	{ sort: 'concern', members: ['bucket'], text: 'Nothing heard since the winter. Ring him, kindly.' },
	{
		sort: 'not to be paired',
		members: ['bram', 'sanna'],
		text: 'Old quarrel about a sold pair. Do not send them to each other.'
	},
	{
		sort: 'wish',
		members: ['hette'],
		text: 'If anything happens to me, the Piedra Blanca fish go to Ines and Piet.'
	},
	{ sort: 'concern', members: ['nell'], text: 'First bag ever. Somebody should ask after a week.' }
] as const;
