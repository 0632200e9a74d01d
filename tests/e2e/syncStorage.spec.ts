import { chromium, expect, test, type BrowserContext, type Page } from '@playwright/test';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromiumArgs, chromiumThere } from '#tests/helpers/findChromium.ts';
import { until } from '#tests/helpers/until.ts';
import {
	allShared,
	isConnected,
	openDevice,
	problemOf,
	seesNotes,
	sharingOf,
	SyncHarness,
	unshared,
	write
} from '#tests/sync/harness/syncHarness.ts';

const harness = new SyncHarness(4341);

test.beforeAll(() => harness.start());
test.beforeEach(() => harness.newClub());
test.afterAll(() => harness.stop());

async function ana(context: BrowserContext): Promise<Page> {
	const page = await context.newPage();
	await openDevice(page, harness.url, 'ana', 'ana-phone');
	return page;
}

const storeName = 'kithline:pond:ana';

/** A page of the same origin without the app, as a person's browser settings are. */
async function deleteUnderTheApp(context: BrowserContext, name: string): Promise<void> {
	const other = await context.newPage();
	await other.goto(harness.url);
	await other.evaluate(
		(database) =>
			new Promise<void>((resolve, reject) => {
				const request = indexedDB.deleteDatabase(database);
				request.onsuccess = () => resolve();
				request.onerror = () => reject(new Error('not deleted'));
			}),
		name
	);
	await other.close();
}

test('no room: the write fails with a sentence, says nothing false, and works again with room', async ({
	context
}) => {
	const page = await ana(context);
	await isConnected(page, true);
	await harness.stopLedger();
	await isConnected(page, false);
	const kept = await write(page, 'kept');
	const browser = await context.newCDPSession(page);
	const origin = new URL(harness.url).origin;
	await browser.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
	const failure = await page.evaluate(async () => {
		// Browsers let some writes through for a while: written until it says no, as a long day would.
		for (let written = 0; written < 16_000; written += 16) {
			try {
				await window.harness.writeTogether(Array.from({ length: 16 }, () => 'x'.repeat(15_000)));
			} catch (error) {
				return { written, message: (error as Error).message };
			}
		}
		return null;
	});
	expect(failure?.message).toContain('no room left');
	expect(await problemOf(page)).toBe('storage-full');
	// Only what completed is called "on this device".
	await until(
		'the list to be as the store is',
		async () => (await unshared(page)).length === failure!.written + 1
	);
	await browser.send('Storage.overrideQuotaForOrigin', { origin });
	const again = await write(page, 'again');
	expect(await problemOf(page)).toBeNull();
	expect(await sharingOf(page, again[0]!)).toBe('device');
	await openDevice(page, harness.url, 'ana', 'ana-phone');
	const listed = (await unshared(page)).map((note) => note.id);
	expect([listed[0], listed.at(-1), listed.length]).toEqual([kept[0], again[0], failure!.written + 2]);
	// In order of writing, so the first is soon there; the megabytes after it need not be waited for.
	await harness.startLedger();
	await until('the first to be shared', async () => (await harness.find(kept)).size === 1);
});

test('the database is deleted under the app: put back from memory, told, and shared', async ({ context }) => {
	const page = await ana(context);
	await write(page, 'shared before');
	await allShared(page);
	await harness.stopLedger();
	await isConnected(page, false);
	const ids = await write(page, 'one', 'two');
	await deleteUnderTheApp(context, storeName);
	await until('the page to tell', async () => (await problemOf(page)) === 'storage-put-back');
	expect((await unshared(page)).map((note) => note.id)).toEqual(ids);
	await write(page, 'three');
	// A new page finds them in the database, not in anybody's memory.
	await page.close();
	const later = await ana(context);
	await seesNotes(later, ['one', 'shared before', 'three', 'two']);
	await harness.startLedger();
	await allShared(later);
	expect((await harness.find(ids)).size).toBe(2);
	await seesNotes(later, ['one', 'shared before', 'three', 'two']);
});

test('the cache of the document is deleted under the app: nothing stops', async ({ context }) => {
	const page = await ana(context);
	await write(page, 'before');
	await allShared(page);
	const names = await page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name!));
	const caches = names.filter((name) => name.startsWith(`${storeName}:`));
	expect(caches.length).toBeGreaterThan(0);
	for (const name of caches) await deleteUnderTheApp(context, name);
	const ids = await write(page, 'after');
	await allShared(page);
	expect((await harness.find(ids)).size).toBe(1);
	await openDevice(page, harness.url, 'ana', 'ana-phone');
	await seesNotes(page, ['after', 'before']);
});

test('thrown away while the app was closed: told at the next start, with what was lost', async ({
	context
}) => {
	const page = await ana(context);
	await write(page, 'shared before');
	await allShared(page);
	await harness.stopLedger();
	await write(page, 'lost');
	await page.close();
	await deleteUnderTheApp(context, storeName);
	await harness.startLedger();
	const later = await ana(context);
	expect(await problemOf(later)).toBe('storage-evicted');
	expect(await later.evaluate(() => window.club.status.storage.evicted)).toBe(true);
	expect(await later.evaluate(() => window.club.markBefore?.unshared)).toBe(1);
	await seesNotes(later, ['shared before']);
	await later.evaluate(() => window.club.dismiss('storage-evicted'));
	await until('the person to have read it', async () => (await problemOf(later)) === null);
});

test('a private window: works, and says that the browser does not promise to keep it', async ({
	context
}) => {
	const page = await ana(context);
	const { storage } = await page.evaluate(() => window.club.status);
	expect(storage.persisted).toBe(false);
	expect(storage.quotaBytes).toBeGreaterThan(0);
	const [id] = await write(page, 'in private');
	await allShared(page);
	expect(await sharingOf(page, id!)).toBe('shared');
	expect(await page.evaluate(() => window.club.askToKeep())).toBe(false);
});

test('a browser that is closed and started again keeps what is not shared', async () => {
	const profile = mkdtempSync(join(tmpdir(), 'kithline-profile-'));
	const start = () =>
		chromium.launchPersistentContext(profile, {
			executablePath: chromiumThere() ?? undefined,
			args: chromiumArgs
		});
	try {
		await harness.stopLedger();
		const first = await start();
		const ids = await write(await ana(first), 'before closing', 'also');
		await first.close();
		const second = await start();
		const page = await ana(second);
		await seesNotes(page, ['also', 'before closing']);
		expect((await unshared(page)).map((note) => note.id)).toEqual(ids);
		await harness.startLedger();
		await allShared(page);
		await second.close();
		expect((await harness.find(ids)).size).toBe(2);
	} finally {
		rmSync(profile, { recursive: true, force: true });
	}
});

test('what cannot be kept is told before anything is written', async ({ context }) => {
	const page = await ana(context);
	const said = await page.evaluate(async () => {
		const failure = (work: Promise<unknown>) =>
			work.then(
				() => '',
				(error: Error) => error.message
			);
		return {
			long: await failure(window.harness.write(['x'.repeat(20_000)])),
			many: await failure(window.harness.writeTogether(Array.from({ length: 65 }, () => 'x'))),
			file: await failure(window.club.importFile('{"hello":1}')),
			other: await failure(
				window.club.importFile('{"what":"kithline: not yet shared","club":"lake","entries":[]}')
			)
		};
	});
	expect(said.long).toContain('too long');
	expect(said.many).toContain('too much');
	expect(said.file).toContain('not a file that this app saved');
	expect(said.other).toContain('another club');
	expect(await unshared(page)).toEqual([]);
	// What no person means to say is left out, the rest is kept.
	await write(page, 'half \ud800 and nul \0 end');
	await seesNotes(page, ['half \ufffd and nul  end']);
	await allShared(page);
});

test('who has signed in here is known with no network, and forgotten at sign-out', async ({ context }) => {
	const page = await ana(context);
	const people = await page.evaluate(async () => {
		const { rememberPerson, knownPeople } = window.harness.people;
		const person = { club: 'pond', clubName: 'Pond', device: 'd', lastUsed: 1 };
		await rememberPerson({ ...person, member: 'ana', name: 'Ana' });
		await rememberPerson({ ...person, member: 'ben', name: 'Ben', lastUsed: 2 });
		const before = (await knownPeople()).map(({ name }) => name);
		await window.club.wipe();
		return { before, after: (await knownPeople()).map(({ name }) => name) };
	});
	expect(people).toEqual({ before: ['Ben', 'Ana'], after: ['Ben'] });
});
