/**
 * A small club in a throw-away folder, served until the process is stopped: `node smallClub.ts`. Its members sign in
 * with their name and the password below; today is a meeting. With KITHLINE_DATA the club is kept there, and the next
 * start serves what it finds.
 */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
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
const rooms = ['harbour', 'mill', 'orchard'] as const;
const dayMs = 86_400_000;
const now = Date.now();
const fish = (males: number, females: number, unsexed = 0) => ({ males, females, unsexed });

let counter = 0;
function entry(by: string, kind: string, daysAgo: number, body: object, about: readonly string[]): string {
	counter++;
	const time = now - daysAgo * dayMs + counter;
	const happened = `${new Date(time).toISOString().slice(0, 19)}Z`;
	return JSON.stringify({
		id: uuid7(time, counter),
		kind,
		version: 1,
		by,
		device: `${by}-old-phone`,
		happened,
		about,
		body
	});
}

function line(id: string, code: string, name: string): string {
	const definition = {
		...{ code, name, kind: 'conservation', fishGroup: 'corydoras', taxonVerbatim: '', taxonTidy: '' },
		...{ localityVerbatim: 'Stone weir, upper pool', localityCode: '', source: '', movement: 'none' }
	};
	return entry('harbour', 'line/opened', 300, { line: id, definition }, [id]);
}

function group(id: string, room: string, of: ReturnType<typeof fish>, origin: object): string {
	const body = {
		group: id,
		line: 'weir-cory',
		room: `room-${room}`,
		name: '',
		tank: '',
		origin,
		fish: of,
		certainty: 'counted',
		stage: 'adult'
	};
	return entry(room, 'group/started', 200, body, [id]);
}

const wild = { from: 'founders', source: 'wild', related: 'unrelated' };
const oneBrood = { from: 'founders', source: 'a shop', related: 'one brood' };
const today = new Date(now).toISOString().slice(0, 10);
const meeting = { meeting: 'evening', name: 'Club evening', date: today, place: 'Chapel hall' };

async function fill(folder: string): Promise<void> {
	let time = now - 400 * dayMs;
	const app = await createApp(readConfig({ KITHLINE_DATA: folder }), () => time);
	const hash = await hashPassword(password);
	const club = { id: 'small-club', name: 'Small Club', timeZone: 'UTC', region: 'Coast' };
	await app.db.transaction().execute(async (transaction) => {
		const asked = { by: null, at: time };
		const id = await openClub(transaction, app.record, club, asked);
		for (const room of rooms) {
			const account = await insertAccount(transaction, { signInName: room, passwordHash: hash }, time);
			await joinClub(transaction, app.record, id, { id: room, account, name: `${room} keeper` }, asked);
			const words = { name: `${room} room`, region: 'Coast', house: '' };
			await openRoom(transaction, app.record, id, { ...words, id: `room-${room}`, keepers: [room] }, asked);
		}
		await giveRole(transaction, app.record, id, { member: 'harbour', role: 'officer', of: null }, asked);
	});
	await app.record.flush(club.id);
	time = now - dayMs;
	const texts = [
		line('weir-cory', 'WEIR-1', 'Weir cory'),
		group('harbour-wild', 'harbour', fish(3, 4), wild),
		group('orchard-wild', 'orchard', fish(2, 3), wild),
		group('mill-shop', 'mill', fish(2, 2), oneBrood),
		entry('harbour', 'meeting/planned', 20, meeting, ['evening'])
	];
	const answers = await app.ledger.bring(club.id, 'club', texts, { member: 'harbour', device: 'old-phones' });
	const refused = answers.find((answer) => 'reason' in answer);
	if (refused) throw new Error(`smallClub must have every entry taken, got ${JSON.stringify(refused)}`);
	await app.close();
}

const kept = process.env.KITHLINE_DATA;
const folder = kept ?? mkdtempSync(join(tmpdir(), 'kithline-small-'));
if (!kept) process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
if (!existsSync(join(folder, 'kithline.sqlite'))) await fill(folder);
Object.assign(process.env, { KITHLINE_DATA: folder, KITHLINE_DEMO: '1' });
await import('#server/main.ts');
