/** The demo club's lines: what each is, who coordinates it, and which rooms hold it from when to when. */
import type { FishGroup, LineDefinition, LineRules } from '#records/state.ts';
import type { MemberKey, RoomKey } from './names.ts';

export interface HoldingPlan {
	readonly room: RoomKey;
	/** Founders, a row of the list typed on the first evening, or a bag from another room. */
	readonly start: 'founders' | 'old list' | RoomKey;
	/** Months since the record began. */
	readonly from: number;
	/** The fish are gone from then on, and the room says so. */
	readonly ends?: number;
	readonly why?: 'died' | 'let go';
	/** The room stops telling: nothing is heard from then on. */
	readonly silent?: number;
}

export interface LinePlan {
	readonly key: string;
	readonly opens: number;
	readonly coordinator: MemberKey;
	readonly deputy?: MemberKey;
	readonly definition: LineDefinition;
	readonly rules?: LineRules;
	readonly standard?: { readonly text: string; readonly throws: string };
	readonly retires?: { readonly month: number; readonly reason: string };
	readonly holdings: readonly HoldingPlan[];
}

const define = (
	code: string,
	name: string,
	kind: 'conservation' | 'strain',
	fishGroup: FishGroup,
	taxon: readonly [verbatim: string, tidy: string],
	locality: readonly [verbatim: string, code: string],
	source: string,
	movement: LineDefinition['movement'] = 'none'
): LineDefinition => ({
	...{ code, name, kind, fishGroup, source, movement },
	...{
		taxonVerbatim: taxon[0],
		taxonTidy: taxon[1],
		localityVerbatim: locality[0],
		localityCode: locality[1]
	}
});
const rules = (
	targetRooms: number,
	neverCrossWith: string,
	confirmedDays = 180,
	ageingDays = 90
): LineRules => ({
	...{ targetRooms, confirmedDays, ageingDays, neverCrossWith },
	spareToPublic: false
});

export const lines = [
	{
		...{ key: 'tide', opens: 0, coordinator: 'maud', deputy: 'reed' },
		definition: define(
			'TIDE-1',
			'Tidewater Blue guppy',
			'strain',
			'guppy',
			['guppy, blue', 'Poecilia reticulata'],
			['', ''],
			'a club auction, years ago'
		),
		rules: { ...rules(4, 'any other guppy'), spareToPublic: true },
		standard: {
			text: 'Body blue from gill to tail root, tail a clear even fan. Fault: yellow in the tail, bent spine.',
			throws: 'About one male in ten with a pale tail.'
		},
		holdings: [
			{ room: 'harbour', start: 'founders', from: 0 },
			{ room: 'mill', start: 'harbour', from: 3 },
			{ room: 'attic', start: 'harbour', from: 5 },
			{ room: 'signal', start: 'mill', from: 7, ends: 28, why: 'let go' },
			{ room: 'lower', start: 'mill', from: 10 },
			{ room: 'orchard', start: 'attic', from: 15, silent: 29 },
			{ room: 'upper', start: 'lower', from: 22 },
			{ room: 'nook', start: 'harbour', from: 33.2 }
		]
	},
	{
		...{ key: 'honey', opens: 0, coordinator: 'maud', deputy: 'bram' },
		definition: define(
			'HONEY-1',
			'Honeystone bristlenose',
			'strain',
			'bristlenose',
			['bristlenose, honey coloured', 'Ancistrus sp.'],
			['', ''],
			'Bram’s own brown pair threw them'
		),
		rules: rules(4, 'brown or albino bristlenose'),
		standard: {
			text: 'Even honey colour, dark eyes. Fault: red eyes, patches.',
			throws: 'Some brown young from new blood.'
		},
		holdings: [
			{ room: 'orchard', start: 'founders', from: 0 },
			{ room: 'harbour', start: 'orchard', from: 9 },
			{ room: 'mill', start: 'orchard', from: 10 },
			{ room: 'upper', start: 'orchard', from: 17 },
			{ room: 'brook', start: 'harbour', from: 21 },
			{ room: 'yard', start: 'mill', from: 26 }
		]
	},
	{
		...{ key: 'verde', opens: 0, coordinator: 'hette', deputy: 'maud' },
		definition: define(
			'VERDE-3',
			'Laguna Verdeluz goodeid',
			'conservation',
			'goodeid',
			['Xenotoca cf. variata', 'Xenotoca variata'],
			['Laguna Verdeluz, outflow, site 3', 'HM 08-3'],
			'six pairs from another club’s keeper',
			'listed'
		),
		rules: rules(6, 'any other Xenotoca'),
		holdings: [
			{ room: 'spring', start: 'founders', from: 0 },
			{ room: 'mill', start: 'old list', from: 0 },
			{ room: 'signal', start: 'spring', from: 5, ends: 28, why: 'let go' },
			{ room: 'peat', start: 'spring', from: 8 },
			{ room: 'barn', start: 'mill', from: 11, silent: 27 },
			{ room: 'lower', start: 'mill', from: 15 },
			{ room: 'yard', start: 'signal', from: 26 }
		]
	},
	{
		...{ key: 'piedra', opens: 0, coordinator: 'hette' },
		definition: define(
			'PIEDRA-2',
			'Piedra Blanca goodeid',
			'conservation',
			'goodeid',
			['Zoogoneticus sp. "Piedra Blanca"', 'Zoogoneticus purhepechus'],
			['Ojo de Piedra Blanca, spring pool', 'HM 11-2'],
			'a keeper who gave up',
			'listed'
		),
		rules: rules(5, 'any other Zoogoneticus'),
		holdings: [
			{ room: 'signal', start: 'founders', from: 0, ends: 21, why: 'died' },
			{ room: 'spring', start: 'signal', from: 7 },
			{ room: 'attic', start: 'spring', from: 13, ends: 30, why: 'died' }
		]
	},
	{
		...{ key: 'mbwela', opens: 0, coordinator: 'fenn' },
		definition: define(
			'MBWELA-9',
			'Mbwela Pools killifish',
			'conservation',
			'annual killifish',
			['Nothobranchius guentheri', 'Nothobranchius guentheri'],
			['Mbwela pools by the old road', 'TQN 09-4'],
			'an egg bag from abroad'
		),
		rules: rules(4, 'any other Nothobranchius', 120, 60),
		holdings: [
			{ room: 'peat', start: 'founders', from: 0 },
			{ room: 'barn', start: 'peat', from: 6 },
			{ room: 'brook', start: 'peat', from: 12 },
			{ room: 'harbour', start: 'barn', from: 20 }
		]
	},
	{
		...{ key: 'nsombe', opens: 1, coordinator: 'fenn', deputy: 'jory' },
		definition: define(
			'NSOMBE-1',
			'Nsombe Stream killifish',
			'conservation',
			'killifish',
			['Fundulopanchax gardneri', 'Fundulopanchax gardneri'],
			['Nsombe stream above the ford', 'KLB 14-7'],
			'a swap with another club'
		),
		holdings: [
			{ room: 'barn', start: 'founders', from: 1, silent: 26 },
			{ room: 'peat', start: 'barn', from: 8 },
			{ room: 'upper', start: 'peat', from: 14 }
		]
	},
	{
		...{ key: 'wattle', opens: 2, coordinator: 'sanna' },
		definition: define(
			'WATTLE-1',
			'Wattle Crossing rainbowfish',
			'conservation',
			'rainbowfish',
			['Melanotaenia splendida, Wattle Crossing', 'Melanotaenia splendida'],
			['Wattle Crossing, upper pool', 'DP 02'],
			'bought as young from a friend'
		),
		rules: rules(4, 'any other rainbowfish'),
		holdings: [
			{ room: 'brook', start: 'founders', from: 2 },
			{ room: 'spring', start: 'brook', from: 11 },
			{ room: 'harbour', start: 'brook', from: 17 },
			{ room: 'yard', start: 'spring', from: 23, silent: 24 }
		]
	},
	{
		...{ key: 'copper', opens: 3, coordinator: 'reed' },
		definition: define(
			'COPPER-2',
			'Copper Fan dwarf cichlid',
			'strain',
			'dwarf cichlid',
			['cockatoo cichlid, copper', 'Apistogramma cacatuoides'],
			['', ''],
			'one brood from a keeper outside the club'
		),
		holdings: [
			{ room: 'attic', start: 'founders', from: 3 },
			{ room: 'orchard', start: 'attic', from: 12 },
			{ room: 'lower', start: 'attic', from: 18 }
		]
	},
	{
		...{ key: 'brick', opens: 0, coordinator: 'bram' },
		definition: define(
			'BRICK-1',
			'Brick Lyre swordtail',
			'strain',
			'livebearer',
			['red lyretail sword', 'Xiphophorus hellerii'],
			['', ''],
			'bought from a dealer'
		),
		retires: { month: 20, reason: 'Nobody wished to go on with it. Thanks to Bram for ten years.' },
		holdings: [{ room: 'orchard', start: 'old list', from: 0, ends: 18, why: 'let go' }]
	},
	{
		...{ key: 'pelly', opens: 33, coordinator: 'sanna' },
		definition: define(
			'PELLY-1',
			'Pellow peppered cory',
			'strain',
			'corydoras',
			['peppered cory, old club stock', 'Corydoras paleatus'],
			['', ''],
			'not known'
		),
		holdings: []
	}
] as const satisfies readonly LinePlan[];
export type LineKey = (typeof lines)[number]['key'];
