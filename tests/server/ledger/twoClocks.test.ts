import { describe, expect, onTestFinished, test } from 'vitest';
import type { Entry } from '#records/entry.ts';
import { Fold } from '#records/fold.ts';
import { until } from '#tests/helpers/until.ts';
import { definition } from '#tests/records/story.ts';
import { clubId, openTestClub } from './club.ts';
import { entryId, entryText } from './entries.ts';
import { SyncClient } from './syncClient.ts';
import { startSyncServer } from './syncServer.ts';

const annsLog = 2 ** 41;
const bobsLog = 2 ** 42;
const rules = {
	...{ targetRooms: 4, confirmedDays: 180, ageingDays: 120, neverCrossWith: '', spareToPublic: false }
};

/** What a device makes of its document. */
function foldOf(device: SyncClient): Fold {
	const fold = new Fold();
	fold.add([
		...Object.values(device.entries()).map((text) => ({ entry: JSON.parse(String(text)) as Entry })),
		...device.stamps().map((stamp) => ({ stamp }))
	]);
	return fold;
}

describe('two processes over one file, their clocks ten seconds apart', { timeout: 60_000 }, () => {
	test.each([
		['ahead', 10_000],
		['behind', -10_000]
	])(
		'a role is given and revoked on one, decisions come in on the other, which is %s: judged by rows, on all devices alike',
		async (_, apart) => {
			const now = 1_700_000_100_000;
			const club = await openTestClub({ clock: () => now });
			const other = await startSyncServer({ file: club.file, clock: () => now + apart });
			onTestFinished(() => other.close());
			const { writeAsClub } = club.server.ledger;
			const draft = (kind: string, body: object) => ({
				...{ kind, happened: '2023-11-14', about: [], body: { ...body, askedBy: null } }
			});
			const coordinator = { member: 'ann', role: 'coordinator', of: 'lA' };
			await writeAsClub(clubId, [
				draft('club/opened', { club: 'c', name: 'Tern Bay', timeZone: 'UTC', region: '' }),
				draft('club/memberJoined', { member: 'ann', name: 'Ann' }),
				draft('line/opened', { line: 'lA', definition }),
				draft('club/roleGiven', coordinator)
			]);
			const manifest = await other.ledger.manifest(clubId, ['club']);
			const ann = new SyncClient(
				{
					...{ port: other.port, club: clubId, who: 'ann ann-phone', client: annsLog },
					manifest: async () => manifest
				},
				manifest
			);
			onTestFinished(() => ann.destroy());
			ann.connect();
			await until('synced', () => ann.provider.synced && ann.has('known'));
			const bob = await club.device('bob bob-phone', bobsLog);
			const decision = (number: number, targetRooms: number) =>
				entryText(number, {
					...{ id: entryId(number, now - 60_000), kind: 'line/rulesSet', about: ['lA'] },
					body: { line: 'lA', rules: { ...rules, targetRooms } }
				});
			ann.add(decision(1, 4));
			await until('the first answer', () => ann.shared.size === 1);
			await writeAsClub(clubId, [draft('club/roleEnded', coordinator)]);
			ann.add(decision(2, 9));
			await until('the second answer', () => ann.shared.size === 2);
			// Over this storage a process hears of another's rows when it writes itself.
			bob.add(entryText(3, { by: 'bob', device: 'bob-phone' }));
			for (const device of [ann, bob])
				await until('all rows', () => device.ids().size >= 7 && device.stamps().length === 7);

			expect(bob.entries()).toMatchObject(ann.entries());
			const folds = [ann, bob].map(foldOf);
			for (const fold of folds) {
				const verdicts = [1, 2].map((number) => fold.view(entryId(number, now - 60_000))?.verdict.name);
				expect(verdicts).toEqual(['counts', 'not allowed']);
				expect(fold.state.lines.get('lA')?.rules.targetRooms).toBe(4);
			}
			// The rows' times never fall, whichever clock gave them.
			const times = bob.stamps().sort((a, b) => a.n - b.n);
			expect(times.map(({ time }) => time)).toEqual(times.map(({ time }) => time).sort((a, b) => a - b));
		}
	);
});
