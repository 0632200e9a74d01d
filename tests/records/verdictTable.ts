/**
 * Who may say what: every kind by every role, written down by hand. C counts, T told by, N not allowed, U not
 * understood. The scene: r1 (kept by kim) holds groups g1 and g2 and spawn s1 of line A; bag b1 went from r1 to r2 at
 * meeting t1; exchange x1 gives fish of r1 to r2. Each probe is told by the role named above its column.
 */
import { definition, fishOf } from './story.ts';

export const roles = [
	'officer',
	'officer, told by a keeper',
	'coordinator of the line',
	'deputy of the line',
	'coordinator of another line',
	'keeper of the room',
	'keeper of another room',
	'former keeper',
	'runner of the meeting',
	'member with no part',
	'member who left'
] as const;
export const memberOf: Record<(typeof roles)[number], string> = {
	officer: 'olga',
	'officer, told by a keeper': 'olga',
	'coordinator of the line': 'cora',
	'deputy of the line': 'dina',
	'coordinator of another line': 'cole',
	'keeper of the room': 'kim',
	'keeper of another room': 'kit',
	'former keeper': 'fay',
	'runner of the meeting': 'rune',
	'member with no part': 'nora',
	'member who left': 'lena'
};

/** Ids of entries of the scene that taps speak of. */
export interface Scene {
	readonly counted: string;
	readonly disputed: string;
}
export interface Row {
	/** Verdicts in the order of `roles`. */
	readonly expected: string;
	readonly body: (scene: Scene) => unknown;
	readonly corrects?: (scene: Scene) => string[];
}

const parents = { of: [], others: true, number: 'not known' };
const ofFish = 'CCCCTCTTTTT';
const ofFishAtMeeting = 'CCCCTCTTCTT';
const ofRoomAtMeeting = 'CCTTTCTTCTT';
const lineDecision = 'CCCCNNNNNNN';
const roomDecision = 'NCNNNCNNNNN';
const exchangeDecision = 'CCCCNCNNNNN';
const officers = 'CCNNNNNNNNN';
const nobody = 'NNNNNNNNNNN';
const elsewhere = 'UUUUUUUUUUU';
const anyone = 'CCCCCCCCCCC';

const fish = fishOf(1, 1, 0);
const g1 = { group: 'g1', room: null };
const inRoom = { room: 'r1', name: 'Room one', region: '', house: '' };
const keeper = { room: 'r1', member: 'nora', epoch: 'e' };
const role = { member: 'nora', role: 'officer', of: null };
const bagged = {
	number: '',
	line: 'lA',
	contents: [],
	fromRoom: 'r1',
	to: null,
	meeting: 't1',
	exchange: null,
	note: ''
};
const exchange = {
	line: 'lA',
	gives: [{ fromRoom: 'r1', group: null, fish }],
	toRoom: 'r2',
	meeting: null,
	note: '',
	reason: '',
	asked: false,
	outcross: null,
	plan: null
};
const rules = { targetRooms: 5, confirmedDays: 180, ageingDays: 90, neverCrossWith: '', spareToPublic: true };
const founders = { from: 'founders', source: '', related: 'not known' };
const started = {
	line: 'lA',
	room: 'r1',
	name: '',
	tank: '',
	origin: founders,
	fish,
	certainty: 'counted',
	stage: null
};
const arrived = { room: 'r2', line: null, alive: fish, dead: 0, certainty: 'counted', tank: '' };
const spawned = {
	line: 'lA',
	room: 'r1',
	inGroup: 'g1',
	sort: 'spawn',
	mothers: parents,
	fathers: parents,
	stage: 'laid',
	fish,
	certainty: 'about'
};

function row(expected: string, body: unknown): Row {
	return { expected, body: () => body };
}
function asked(expected: string, body: object): Row {
	return row(expected, { ...body, askedBy: null });
}

export const table: Record<string, Row> = {
	'bag/arrived': row(ofFishAtMeeting, { bag: 'b1', group: 'new', ...arrived }),
	'bag/bagged': row(ofFishAtMeeting, { bag: 'b9', ...bagged }),
	'bag/dayCount': row(ofFishAtMeeting, { bag: 'b1', room: null, alive: 2, note: '' }),
	'bag/failed': row(ofFishAtMeeting, { bag: 'b1', room: null, how: 'lost', note: '' }),
	'bag/givenBack': row(ofFishAtMeeting, { bag: 'b1', room: null, note: '' }),
	'bag/handedOver': row(ofFishAtMeeting, { bag: 'b1', fromRoom: null, toRoom: null, meeting: 't1' }),
	'bag/joined': row(ofFishAtMeeting, { bags: ['b1', 'b2'], meeting: null }),
	'bag/parted': row(ofFishAtMeeting, { bags: ['b1', 'b2'], meeting: null }),
	'bag/settled': row(ofFishAtMeeting, { bag: 'b1', room: null, note: '' }),
	'club/distanceSaid': row(officers, { club: 'c', one: 'Coast', other: 'Hills', far: true }),
	'club/keeperAdded': asked(nobody, keeper),
	'club/keeperRemoved': asked(nobody, keeper),
	'club/memberJoined': asked(nobody, { member: 'new', name: 'New' }),
	'club/memberLeft': asked(nobody, { member: 'nora', name: 'former' }),
	'club/memberRenamed': asked(nobody, { member: 'nora', name: 'Nora' }),
	'club/opened': asked(nobody, { club: 'c2', name: '', timeZone: 'UTC', region: '' }),
	'club/roleEnded': asked(nobody, role),
	'club/roleGiven': asked(nobody, role),
	'club/roomDescribed': asked(nobody, inRoom),
	'club/roomOpened': asked(nobody, { ...inRoom, room: 'r9' }),
	'exchange/answered': row(roomDecision, {
		exchange: 'x1',
		line: 'lA',
		room: 'r1',
		answer: 'yes',
		until: '',
		reason: ''
	}),
	'exchange/asked': row(exchangeDecision, { exchange: 'x1', line: 'lA' }),
	'exchange/calledOff': row(exchangeDecision, { exchange: 'x1', line: 'lA', reason: '' }),
	'exchange/proposed': row(exchangeDecision, { exchange: 'new', ...exchange }),
	'group/changed': row(ofFish, { ...g1, fish, why: 'died', cause: '' }),
	'group/closed': row(roomDecision, { ...g1, reason: '' }),
	'group/counted': row(ofFish, { ...g1, fish, certainty: 'counted' }),
	'group/eggsStored': row(ofFish, { ...g1, label: '', checkDue: '', wetDue: '' }),
	'group/mixed': row(ofFish, { ...g1, line: 'lA', sort: 'other', what: '' }),
	'group/moved': row(ofFish, { from: 'g1', to: 'g2', room: null, fish }),
	'group/named': row(ofFish, { ...g1, name: 'Trio', tank: '' }),
	'group/quarantineSet': row(roomDecision, { ...g1, until: '2026-06-01', reason: '' }),
	'group/reopened': row(roomDecision, g1),
	'group/spareOffered': row(roomDecision, { ...g1, fish, until: '', note: '' }),
	'group/stageReached': row(ofFish, { ...g1, stage: 'sexed' }),
	'group/started': row(ofFish, { group: 'new', ...started }),
	'line/described': row(lineDecision, { line: 'lA', definition }),
	'line/opened': row(lineDecision, { line: 'lA', definition }),
	'line/rulesSet': row(lineDecision, { line: 'lA', rules }),
	'line/standardSet': row(lineDecision, { line: 'lA', text: '', throws: '' }),
	'line/stateSaid': row(lineDecision, { line: 'lA', state: 'retired', reason: '' }),
	'line/wantEnded': row(roomDecision, { line: 'lA', room: 'r1' }),
	'line/wanted': row(roomDecision, { line: 'lA', room: 'r1', note: '' }),
	'meeting/attending': row(ofRoomAtMeeting, { meeting: 't1', room: 'r1', coming: true }),
	'meeting/calledOff': row(officers, { meeting: 't1' }),
	'meeting/planned': row(officers, { meeting: 't2', name: '', date: '', place: '' }),
	'officers/words': row(elsewhere, { sort: 'wish', members: [], text: '' }),
	'room/checkedIn': row(ofFish, { room: 'r1', line: 'lA', has: 'yes', breeding: 'yes', note: '' }),
	'room/closed': row(roomDecision, { room: 'r1', reason: '' }),
	'room/privateWords': row(elsewhere, { room: 'r1', text: '', explains: null, group: null }),
	'room/reopened': row(roomDecision, { room: 'r1' }),
	'room/tanksFree': row(ofFish, { room: 'r1', line: 'lA', tanks: 2 }),
	'spawn/parentsSaid': row(ofFish, { spawn: 's1', room: null, mothers: parents, fathers: parents }),
	'spawn/seen': row(ofFish, { spawn: 'new', brood: 'newBrood', ...spawned }),
	'word/confirmed': { expected: ofFish, body: ({ counted }) => ({ entry: counted }) },
	'word/decided': {
		expected: lineDecision,
		body: ({ counted, disputed }) => ({ dispute: disputed, of: counted, stands: true, reason: '' })
	},
	'word/disputed': { expected: anyone, body: ({ counted }) => ({ entry: counted, reason: '' }) },
	'word/withdrawn': { expected: ofFish, body: () => ({ reason: '' }), corrects: ({ counted }) => [counted] }
};
