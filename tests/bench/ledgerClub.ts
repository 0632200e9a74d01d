/**
 * Fills a server's folder with a club of many entries, all in closed volumes, and an officer who is signed in:
 * `node ledgerClub.ts <folder> <entries>` prints the cookies and the club as JSON.
 */
import { readConfig } from '#server/config.ts';
import { createApp } from '#server/http/app.ts';
import { insertAccount } from '#server/auth/accounts.ts';
import { browserCookie, sessionCookie } from '#server/auth/session.ts';
import { newToken } from '#server/auth/token.ts';
import { joinClub, openClub } from '#server/club/members.ts';
import { giveRole } from '#server/club/roles.ts';
import { ledgerHistory, type Row } from './ledgerHistory.ts';

export interface FilledClub {
	readonly club: string;
	readonly cookies: readonly { readonly name: string; readonly value: string }[];
	readonly volumes: number;
	readonly volumeBytes: number;
}

const [folder = '', size = ''] = process.argv.slice(2);
const club = 'bench-club';
const member = 'bench-officer';
/** Entries written in one commit. */
const together = 500;

const app = await createApp(readConfig({ KITHLINE_DATA: folder }));
const at = Date.UTC(2005, 0, 1);
const asked = { by: null, at };
const account = await app.db.transaction().execute(async (transaction) => {
	const words = { id: club, name: 'Bench club', timeZone: 'Europe/London', region: '' };
	const opened = await openClub(transaction, app.record, words, asked);
	const made = await insertAccount(transaction, { signInName: 'bench', passwordHash: '' }, at);
	await joinClub(transaction, app.record, opened, { id: member, account: made, name: 'Bench' }, asked);
	await giveRole(transaction, app.record, opened, { member, role: 'officer', of: null }, asked);
	return made;
});
await app.record.flush(club);

const rows = ledgerHistory(1, Number(size)).filter(({ entry }) => entry.kind !== 'club/opened');
const isServers = ({ entry }: Row) => entry.by === 'club';
for (let from = 0; from < rows.length; from += together) {
	const part = rows.slice(from, from + together);
	const own = part
		.filter(isServers)
		.map(({ entry: { id, kind, happened, about, body } }) => ({ id, kind, happened, about, body }));
	if (own.length > 0) await app.ledger.writeAsClub(club, own);
	const texts = part.filter((row) => !isServers(row)).map(({ entry }) => JSON.stringify(entry));
	const answers = await app.ledger.bring(club, 'club', texts, { member, device: 'bench' });
	const refused = answers.find((answer) => 'reason' in answer);
	if (refused) throw new Error(`ledgerClub must have every entry taken, got ${JSON.stringify(refused)}`);
}
await app.ledger.closeVolume(club, 'club');
const manifest = await app.ledger.manifest(club, ['club']);
const volumes = manifest.audiences[0]?.volumes ?? [];
const browser = newToken();
const secret = await app.sessions.start(account, browser);
const filled: FilledClub = {
	club,
	cookies: [
		{ name: sessionCookie, value: secret },
		{ name: browserCookie, value: browser }
	],
	volumes: volumes.length,
	volumeBytes: volumes.reduce((sum, { bytes }) => sum + bytes, 0)
};
await app.close();
console.log(JSON.stringify(filled));
