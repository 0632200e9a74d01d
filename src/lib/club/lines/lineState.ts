import type { Line } from '#records/state.ts';
import { dayMs } from '../question.ts';
import type { Holding } from './holdings.ts';
import { rulesOf } from './rulesOf.ts';

export type LineStateWord =
	'safe' | 'watch' | 'at risk' | 'last room' | 'not asked yet' | 'possibly lost' | 'lost' | 'retired';

export interface LineStateSaid {
	readonly word: LineStateWord;
	/** Always beside the word: "3 rooms confirmed". */
	readonly because: string;
	/** Rooms sharing a house counted once. */
	readonly confirmed: number;
	readonly unconfirmed: number;
	/** Confirmed rooms whose word is getting old. */
	readonly ageing: number;
	readonly target: number;
	/** Younger than a year in the club's record. */
	readonly isNew: boolean;
	/** How dangerous: 0 is the most endangered. */
	readonly danger: number;
}

/** Most endangered first; what the coordinator has ended comes last. */
const byDanger: readonly LineStateWord[] = [
	'possibly lost',
	'last room',
	'at risk',
	'not asked yet',
	'watch',
	'safe',
	'lost',
	'retired'
];
const yearDays = 365;
/** Three confirmed rooms are the alarm: own arithmetic; common practice, no source. */
const alarmRooms = 3;

/**
 * Line state: how endangered is a line, in one word with its count?
 *
 * The first that fits: retired, lost (the coordinator's word); possibly lost (no room, or none confirmed for a year);
 * not asked yet (no check since it was entered); last room; at risk (three confirmed or fewer); watch (fewer than the
 * line wants, or fewer if all ageing rooms fell away); safe. Common practice, no source. A line that no room was ever
 * said to have is "not asked yet", not "possibly lost": nothing that anybody knew of has gone.
 */
export function lineState(line: Line, holdings: readonly Holding[], now: number): LineStateSaid {
	const rules = rulesOf(line);
	const houses = new Map<string, 'fresh' | 'ageing' | 'unconfirmed'>();
	const strength = { fresh: 2, ageing: 1, unconfirmed: 0 };
	for (const holding of holdings) {
		if (holding.word === 'no longer has it' || holding.forCross) continue;
		const now = holding.word !== 'holds it' ? 'unconfirmed' : holding.ageing ? 'ageing' : 'fresh';
		const before = houses.get(holding.house);
		if (!before || strength[now] > strength[before]) houses.set(holding.house, now);
	}
	const all = [...houses.values()];
	const ageing = all.filter((each) => each === 'ageing').length;
	const confirmed = all.filter((each) => each !== 'unconfirmed').length;
	const unconfirmed = all.length - confirmed;
	const opened = line.opened?.when.first ?? null;
	const lastConfirmed = holdings.reduce<number | null>(
		(last, each) => (each.confirmed !== null && each.confirmed > (last ?? -Infinity) ? each.confirmed : last),
		null
	);
	// Silence begins when the last confirmation ran out; for a line never confirmed, when it was entered.
	const silentSince = lastConfirmed === null ? opened : lastConfirmed + rules.confirmedDays * dayMs;
	const silentYear = confirmed === 0 && silentSince !== null && now - silentSince >= yearDays * dayMs;
	const neverAsked = holdings.every((each) => each.lastWord === null);
	const word = firstThatFits();
	return {
		word,
		because: words(word, confirmed, unconfirmed),
		confirmed,
		unconfirmed,
		ageing,
		target: rules.targetRooms,
		isNew: opened !== null && now - opened < yearDays * dayMs,
		danger: byDanger.indexOf(word)
	};

	function firstThatFits(): LineStateWord {
		if (line.stateSaid?.state === 'retired') return 'retired';
		if (line.stateSaid?.state === 'lost') return 'lost';
		if (silentYear || (all.length === 0 && holdings.length > 0)) return 'possibly lost';
		if (neverAsked) return 'not asked yet';
		if (all.length === 1) return 'last room';
		if (confirmed <= alarmRooms) return 'at risk';
		if (confirmed - ageing < rules.targetRooms) return 'watch';
		return 'safe';
	}
}

function words(word: LineStateWord, confirmed: number, unconfirmed: number): string {
	if (confirmed === 0 && unconfirmed === 0) return 'no room holds it';
	const sure = `${confirmed} ${confirmed === 1 ? 'room' : 'rooms'} confirmed`;
	if (word === 'not asked yet') return `${unconfirmed} ${unconfirmed === 1 ? 'room' : 'rooms'} on the list`;
	return unconfirmed > 0 ? `${sure}, ${unconfirmed} not` : sure;
}
