/** Things before anything is known of them: what a placeholder looks like. */
import type { ThingId } from './entry.ts';
import { noFish } from './fishCount.ts';
import type { ThingType, ThingTypes } from './kind.ts';
import type { CountNow, LineRules, ParentSet } from './state.ts';

/** Defaults per line (common practice, no source); annual killifish are asked more often. */
export function defaultRules(annual: boolean): LineRules {
	return {
		targetRooms: 5,
		confirmedDays: annual ? 120 : 180,
		ageingDays: 90,
		neverCrossWith: '',
		spareToPublic: true
	};
}

export const nobodyCounted: CountNow = {
	fish: noFish,
	certainty: 'not known',
	base: null,
	added: [],
	orderNotClear: [],
	belowZero: false
};

export const parentsNotKnown: ParentSet = { of: [], others: true, number: 'not known' };

/** Every field written out, not spread: thousands are made at once, and their shape is known beforehand. */
export const blank: { readonly [T in ThingType]: (id: ThingId) => ThingTypes[T] } = {
	club: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		name: '',
		timeZone: 'UTC',
		region: '',
		opened: null,
		far: []
	}),
	member: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		name: '',
		joined: null,
		left: null,
		roles: [],
		rooms: []
	}),
	room: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		name: '',
		region: '',
		house: '',
		keepers: [],
		keepersBefore: [],
		epoch: '',
		checks: [],
		closed: null,
		tanksFree: null,
		wants: []
	}),
	line: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		code: '',
		name: '',
		kind: 'conservation',
		fishGroup: 'other',
		taxonVerbatim: '',
		taxonTidy: '',
		localityVerbatim: '',
		localityCode: '',
		source: '',
		movement: 'none',
		opened: null,
		rules: defaultRules(false),
		rulesSaid: null,
		standard: null,
		stateSaid: null,
		mixes: []
	}),
	group: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		line: null,
		room: null,
		name: '',
		tank: '',
		origin: { from: 'not known' },
		started: null,
		stages: [],
		stage: null,
		counts: [],
		changes: [],
		now: nobodyCounted,
		closed: null,
		quarantine: null,
		mixes: [],
		spare: null,
		eggBag: null,
		bags: [],
		spawns: [],
		ended: null
	}),
	spawn: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		line: null,
		room: null,
		sort: 'spawn',
		inGroup: null,
		brood: null,
		seen: null,
		mothers: parentsNotKnown,
		fathers: parentsNotKnown,
		parentsSaid: null
	}),
	bag: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		ids: [id],
		number: '',
		numberClash: [],
		line: null,
		fromRoom: null,
		to: null,
		contents: [],
		meeting: null,
		exchange: null,
		statements: [],
		handOvers: [],
		arrivals: [],
		givenBack: null,
		failed: null,
		dayCounts: [],
		differences: [],
		settled: null,
		baggedAt: null,
		stage: 'mentioned'
	}),
	exchange: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		line: null,
		gives: [],
		toRoom: null,
		meeting: null,
		note: '',
		reason: '',
		outcross: null,
		plan: null,
		proposed: null,
		asked: null,
		answers: [],
		calledOff: null,
		bags: [],
		stage: 'proposed'
	}),
	meeting: (id) => ({
		id,
		known: false,
		entries: [],
		leftOut: [],
		disputes: [],
		twoVersions: [],
		name: '',
		date: '',
		place: '',
		planned: null,
		calledOff: null,
		attending: [],
		bags: []
	})
};
