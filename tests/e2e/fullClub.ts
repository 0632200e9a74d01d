/**
 * A club with hard data in a throw-away folder, served until the process is stopped: `node fullClub.ts`. One room has
 * 200 groups, names are long or run from right to left, one group has a history of hundreds of statements, doubts and
 * two versions among them. Members sign in as `shed` (an officer) and `dina` with the password below.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { insertAccount } from '#server/auth/accounts.ts';
import { hashPassword } from '#server/auth/passwords.ts';
import { joinClub, openClub } from '#server/club/members.ts';
import { giveRole } from '#server/club/roles.ts';
import { openRoom } from '#server/club/rooms.ts';
import { readConfig } from '#server/config.ts';
import { createApp } from '#server/http/app.ts';
import { uuid7 } from '#tests/helpers/randomHistory.ts';

const password = 'three unrelated words';
const dayMs = 86_400_000;
const now = Date.now();
const fish = (males: number, females: number, unsexed = 0) => ({ males, females, unsexed });

const rooms = [
	{
		id: 'room-shed',
		keeper: { id: 'shed', name: 'Wilhelmina Featherstonehaugh-Cholmondeley of the Lower Canal Wharf' },
		name: 'The long shed behind the second boathouse, upper and lower racks',
		region: 'Northern Lakes and Upper Estuary'
	},
	{
		id: 'room-dina',
		keeper: { id: 'dina', name: 'דינה בת־שבע אלמוג' },
		name: 'חדר הדגים של דינה',
		region: 'Coast'
	},
	{
		id: 'room-quay',
		keeper: { id: 'quay', name: 'قاسم النهري' },
		name: 'Quay room (غرفة الرصيف)',
		region: 'Coast'
	}
] as const;

const lineNames = [
	'Weir cory',
	'Corydoras of the long reach between the two lower weirs, dark-shouldered form as received in the autumn of 2019',
	'קורידורס הסכר (stone weir)',
	'سلمندر الرصيف 2',
	'Pseudomugilinae-Unterlaufsiedlungsgebietspopulation',
	'Ferry guppy',
	'Causeway guppy',
	'Mill-race medaka',
	'Orchard killi',
	'Lock-gate goodeid',
	'Towpath rainbow',
	'Osier bed bristlenose',
	'Sluice dwarf cichlid',
	'Saltmarsh killi'
];

interface Written {
	readonly by: string;
	readonly kind: string;
	readonly daysAgo: number;
	readonly body: object;
	readonly about: readonly string[];
	readonly corrects?: readonly string[];
	readonly because?: string;
}
let counter = 0;
const texts: string[] = [];
function write({ daysAgo, ...of }: Written): string {
	counter++;
	const time = now - daysAgo * dayMs + counter;
	const id = uuid7(time, counter);
	const happened = new Date(time).toISOString();
	texts.push(JSON.stringify({ id, version: 1, device: `${of.by}-old-phone`, happened, ...of }));
	return id;
}

function line(index: number): void {
	const id = `line-${index}`;
	const definition = {
		...{ code: `LN-${String(index).padStart(2, '0')}`, name: lineNames[index], kind: 'conservation' },
		...{ fishGroup: index === 5 || index === 6 ? 'guppy' : 'corydoras', taxonVerbatim: '', taxonTidy: '' },
		...{ localityVerbatim: 'Stone weir, upper pool', localityCode: '', source: '', movement: 'none' }
	};
	write({ by: 'shed', kind: 'line/opened', daysAgo: 900, body: { line: id, definition }, about: [id] });
}

function group(id: string, room: string, by: string, of: number, more: object, daysAgo: number): void {
	const body = {
		...{ group: id, line: `line-${of}`, room, name: '', tank: '', stage: 'adult' },
		...{ origin: { from: 'founders', source: 'wild', related: 'unrelated' }, certainty: 'counted' },
		...more
	};
	write({ by, kind: 'group/started', daysAgo, body, about: [id] });
}

function groupsOfTheShed(): void {
	for (let i = 0; i < 200; i++) {
		// Ninety groups are of one line, the others are spread over the rest.
		const of = i < 90 ? 0 : 1 + (i % (lineNames.length - 1));
		const name =
			i === 0
				? 'Breeding colony of the oldest females that came with the first bag in spring, kept apart from the rest'
				: i === 1
					? 'קבוצת הרבייה 1 (upper)'
					: i % 7 === 0
						? `Trio ${i}`
						: '';
		const tank = `rack ${1 + Math.floor(i / 20)}, tank ${1 + (i % 20)}`;
		const certainty = i % 5 === 0 ? 'about' : i % 11 === 0 ? 'old list' : 'counted';
		const counted = i % 13 === 0 ? fish(0, 0) : fish(i % 4, i % 6, (i * 7) % 40);
		const unknown = counted.males + counted.females + counted.unsexed === 0;
		const more = { name, tank, fish: counted, certainty: unknown ? 'about' : certainty };
		group(`shed-${i}`, 'room-shed', 'shed', of, more, 400 - (i % 300));
	}
}

/** Counts, losses and doubts of one group over a year. */
function longHistory(): void {
	const ref = { group: 'shed-0', room: 'room-shed' };
	const about = ['shed-0'];
	for (let i = 0; i < 320; i++) {
		const died = {
			...ref,
			fish: fish(0, 0, 1),
			why: 'died',
			cause: i % 9 ? '' : 'heater stuck in the cold week'
		};
		const count = { ...ref, fish: fish(4, 6, 30 + (i % 12)), certainty: i % 3 ? 'counted' : 'about' };
		const body = i % 4 === 1 ? died : count;
		const kind = i % 4 === 1 ? 'group/changed' : 'group/counted';
		write({ by: i % 10 === 5 ? 'dina' : 'shed', kind, daysAgo: 330 - i, body, about });
	}
	const wrong = write({
		by: 'shed',
		kind: 'group/counted',
		daysAgo: 3,
		body: { ...ref, fish: fish(40, 60), certainty: 'counted' },
		about
	});
	for (const males of [4, 5]) {
		const body = { ...ref, fish: fish(males, 6), certainty: 'counted' };
		const corrects = [wrong];
		write({ by: 'shed', kind: 'group/counted', daysAgo: 2, body, about, corrects, because: 'Wrong number' });
	}
	const counted = { ...ref, fish: fish(4, 6, 2), certainty: 'counted' };
	const doubted = write({ by: 'shed', kind: 'group/counted', daysAgo: 1, body: counted, about });
	const doubt = { entry: doubted, reason: 'I saw five males on Sunday.' };
	write({ by: 'dina', kind: 'word/disputed', daysAgo: 0.5, body: doubt, about });
}

async function fill(folder: string): Promise<void> {
	let time = now - 1000 * dayMs;
	const app = await createApp(readConfig({ KITHLINE_DATA: folder }), () => time);
	const hash = await hashPassword(password);
	const club = { id: 'full-club', name: 'Full Club', timeZone: 'UTC', region: 'Coast' };
	await app.db.transaction().execute(async (transaction) => {
		const asked = { by: null, at: time };
		const id = await openClub(transaction, app.record, club, asked);
		for (const { keeper, region, name, id: room } of rooms) {
			const account = await insertAccount(transaction, { signInName: keeper.id, passwordHash: hash }, time);
			await joinClub(transaction, app.record, id, { ...keeper, account }, asked);
			const words = { id: room, name, region, house: '', keepers: [keeper.id] };
			await openRoom(transaction, app.record, id, words, asked);
		}
		await giveRole(transaction, app.record, id, { member: 'shed', role: 'officer', of: null }, asked);
	});
	await app.record.flush(club.id);
	time = now - dayMs / 4;
	lineNames.forEach((_, index) => line(index));
	groupsOfTheShed();
	group('dina-0', 'room-dina', 'dina', 0, { name: 'קבוצה א', fish: fish(2, 3), certainty: 'counted' }, 200);
	group('dina-1', 'room-dina', 'dina', 2, { fish: fish(2, 3), certainty: 'counted' }, 40);
	group('quay-0', 'room-quay', 'quay', 0, { fish: fish(1, 3), certainty: 'counted' }, 100);
	longHistory();
	const bringer = { member: 'shed', device: 'old-phones' };
	for (let start = 0; start < texts.length; start += 200) {
		const part = texts.slice(start, start + 200);
		const answers = await app.ledger.bring(club.id, 'club', part, bringer);
		const refused = answers.find((answer) => 'reason' in answer);
		if (refused) throw new Error(`fullClub must have every entry taken, got ${JSON.stringify(refused)}`);
	}
	await app.close();
}

const folder = mkdtempSync(join(tmpdir(), 'kithline-full-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
await fill(folder);
Object.assign(process.env, { KITHLINE_DATA: folder, KITHLINE_DEMO: '1' });
await import('#server/main.ts');
