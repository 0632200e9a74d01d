/** What every storage must do, called by each storage's own test. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { NewVolume, Row, Storage } from '#server/storage/storage.ts';

export interface StorageUnderTest {
	readonly storage: Storage;
	/** Opens the same data once more, as another process would. */
	again(): Promise<Storage>;
	close(): Promise<void>;
}

/** Ids of unequal lengths, with every sort of character that text in a database has been seen to trip over. */
export const hostileIds = [
	'a',
	'A',
	'\uFF41',
	' a',
	'a ',
	'',
	'0',
	'00',
	'1e3',
	'null',
	'__proto__',
	'constructor',
	'toString',
	"'; DROP TABLE ledgerRow; --",
	'%',
	'_',
	'a\\b',
	'a"b',
	'line\nline',
	'na\u00efve',
	'nai\u0308ve',
	'🐟',
	'🐟🐟',
	'\u202Eltr',
	'\uFEFFa',
	'\u{10FFFF}',
	'/../../etc',
	'x'.repeat(5_000),
	`${'x'.repeat(5_000)}y`
];

export function row(overrides: Partial<Row> & Pick<Row, 'n'>): Row {
	return {
		document: 'document-1',
		id: `entry-${overrides.n}`,
		client: 2 ** 32,
		clock: overrides.n - 1,
		text: `{"n":${overrides.n}}`,
		member: 'ann',
		device: 'phone',
		broughtBy: null,
		time: 1_000,
		stampClock: null,
		...overrides
	};
}

const volumeOf = (digest: string, rows: readonly Row[], content = 'content'): NewVolume => ({
	audience: 'club',
	digest,
	entries: rows.length,
	bytes: content.length,
	firstRow: rows[0]?.n ?? 0,
	lastRow: rows.at(-1)?.n ?? 0,
	content: new TextEncoder().encode(content)
});

export function storageContract(name: string, open: () => Promise<StorageUnderTest>): void {
	describe(`${name} keeps the storage contract`, { timeout: 30_000 }, () => {
		let under: StorageUnderTest;
		let storage: Storage;
		beforeEach(async () => {
			under = await open();
			storage = under.storage;
		});
		afterEach(() => under.close());

		const create = (club = 'club-1', document = 'document-1') =>
			storage.change(club, async (change) => {
				await change.create('edition-1');
				await change.openDocument(document, 'club');
			});

		test('a club that was never created is null', async () => {
			expect(await storage.read('nobody').club()).toBeNull();
		});

		test('rows come back as they were, in order of n, also for another process', async () => {
			await create();
			const rows = [
				row({ n: 1, time: 5 }),
				row({ n: 2, time: 5, client: Number.MAX_SAFE_INTEGER, clock: 2 ** 40, stampClock: 2 ** 41 }),
				row({ n: 3, time: Number.MAX_SAFE_INTEGER, broughtBy: 'officer', text: '' })
			];
			await storage.change('club-1', (change) => change.append(rows));
			for (const reader of [storage, await under.again()]) {
				expect(await reader.read('club-1').openRowsAfter(0)).toEqual(rows);
				expect(await reader.read('club-1').openRowsAfter(2)).toEqual(rows.slice(2));
				expect(await reader.read('club-1').club()).toMatchObject({
					lastRow: 3,
					lastTime: Number.MAX_SAFE_INTEGER
				});
			}
		});

		test('hostile ids stay apart, as ids of entries, members, devices, documents, audiences and clubs', async () => {
			for (const [index, id] of hostileIds.entries()) {
				await storage.change(id, async (change) => {
					await change.create(`edition-${index}`);
					await change.openDocument(id, id);
				});
			}
			const [club] = hostileIds as [string];
			const rows = hostileIds.map((id, index) =>
				row({ n: index + 1, document: club, id, member: id, device: id, broughtBy: id, text: id })
			);
			await storage.change(club, (change) => change.append(rows));
			expect(await storage.read(club).openRowsAfter(0)).toEqual(rows);
			const found = await storage.read(club).find(hostileIds);
			expect([...found.keys()]).toEqual(hostileIds);
			expect([...found.values()].map(({ n }) => n)).toEqual(rows.map(({ n }) => n));
			for (const [index, id] of hostileIds.entries()) {
				const record = await storage.read(id).club();
				expect(record).toMatchObject({ edition: `edition-${index}`, lastRow: id === club ? rows.length : 0 });
				expect(record?.documents).toEqual([{ document: id, audience: id }]);
			}
			expect((await storage.read('hasOwnProperty').find(hostileIds)).size).toBe(0);
		});

		test('a change that throws leaves nothing', async () => {
			await create();
			const failing = storage.change('club-1', async (change) => {
				await change.append([row({ n: 1 })]);
				throw new Error('stop here');
			});
			await expect(failing).rejects.toThrow('stop here');
			expect(await storage.read('club-1').openRowsAfter(0)).toEqual([]);
			await storage.change('club-1', (change) => change.append([row({ n: 1 })]));
		});

		test('a part that throws is undone alone', async () => {
			await create();
			await storage.change('club-1', async (change) => {
				await change.part(() => change.append([row({ n: 1 })]));
				const failing = change.part(async () => {
					await change.append([row({ n: 2 })]);
					throw new Error('only this');
				});
				await expect(failing).rejects.toThrow('only this');
				await change.part(() => change.append([row({ n: 2, id: 'another' })]));
			});
			const ids = (await storage.read('club-1').openRowsAfter(0)).map(({ id }) => id);
			expect(ids).toEqual(['entry-1', 'another']);
		});

		test.each([
			['a number left out', [row({ n: 2 })]],
			['a number given twice', [row({ n: 1 }), row({ n: 1, clock: 5 })]],
			['a place in a log given twice', [row({ n: 1 }), row({ n: 2, clock: 0 })]],
			['a time earlier than the last', [row({ n: 1, time: 9 }), row({ n: 2, time: 8 })]],
			['a document that was never opened', [row({ n: 1, document: 'nowhere' })]]
		])('%s is refused whole', async (_, rows) => {
			await create();
			await expect(storage.change('club-1', (change) => change.append(rows))).rejects.toThrow();
			expect(await storage.read('club-1').openRowsAfter(0)).toEqual([]);
		});

		test('changes of one club never overlap', async () => {
			await create();
			const other = await under.again();
			const append = (through: Storage) =>
				through.change('club-1', async (change) => {
					const { lastRow } = (await change.club())!;
					await Promise.resolve();
					await change.append([row({ n: lastRow + 1 })]);
				});
			for (let round = 0; round < 5; round += 1) await Promise.all([append(storage), append(storage)]);
			await append(other);
			await append(storage);
			const rows = await storage.read('club-1').openRowsAfter(0);
			expect(rows.map(({ n }) => n)).toEqual(Array.from({ length: 12 }, (_, index) => index + 1));
		});

		test('the same entry in two logs is two rows and found by its first', async () => {
			await create();
			const rows = [row({ n: 1, id: 'same' }), row({ n: 2, id: 'same', client: 2 ** 33, clock: 0 })];
			await storage.change('club-1', (change) => change.append(rows));
			expect((await storage.read('club-1').find(['same'])).get('same')).toMatchObject({
				n: 1,
				where: 'open'
			});
		});

		test('a log is bound once', async () => {
			await create();
			const binding = {
				document: 'document-1',
				client: Number.MAX_SAFE_INTEGER,
				member: 'ann',
				device: 'phone'
			};
			await storage.change('club-1', (change) => change.bind([binding]));
			expect(await storage.read('club-1').bindings('document-1')).toEqual([binding]);
			const again = storage.change('club-1', (change) => change.bind([{ ...binding, device: 'other' }]));
			await expect(again).rejects.toThrow();
		});

		test('one open document for an audience', async () => {
			await create();
			await expect(
				storage.change('club-1', (change) => change.openDocument('second', 'club'))
			).rejects.toThrow();
		});

		test('a closed document leaves its texts to the volume, and the audience opens the next', async () => {
			await create();
			const rows = [row({ n: 1 }), row({ n: 2 })];
			await storage.change('club-1', (change) => change.append(rows));
			const before = (await storage.read('club-1').club())!.version;
			await storage.change('club-1', async (change) => {
				await change.closeDocument('document-1', volumeOf('digest-1', rows));
				await change.openDocument('document-2', 'club');
			});
			const read = storage.read('club-1');
			expect(await read.openRowsAfter(0)).toEqual([]);
			expect((await read.club())!.documents).toEqual([{ document: 'document-2', audience: 'club' }]);
			expect((await read.club())!.version).toBeGreaterThan(before);
			expect((await read.find(['entry-1'])).get('entry-1')).toMatchObject({
				where: 'volume',
				audience: 'club',
				n: 1
			});
			expect(await read.volumes()).toMatchObject([
				{ digest: 'digest-1', entries: 2, firstRow: 1, lastRow: 2 }
			]);
			expect(new TextDecoder().decode((await read.volume('digest-1'))!)).toBe('content');
			expect(await read.volume('digest-2')).toBeNull();
			expect(await storage.read('club-2').volume('digest-1')).toBeNull();
			expect(await read.idOfRow(2)).toBe('entry-2');
			expect(await read.idOfRow(3)).toBeNull();
		});

		test('an erased entry keeps its number and loses text and digest', async () => {
			await create();
			const rows = [row({ n: 1 }), row({ n: 2 })];
			await storage.change('club-1', async (change) => {
				await change.append(rows);
				await change.closeDocument('document-1', volumeOf('digest-1', rows));
			});
			await storage.change('club-1', async (change) => {
				expect(await change.volumesWith(['entry-1', 'unknown'])).toEqual(['digest-1']);
				await change.rewriteVolume('digest-1', volumeOf('digest-2', rows, 'rewritten'), ['entry-1']);
				expect(await change.volumesWith(['entry-1'])).toEqual([]);
			});
			await storage.scrub();
			const found = await storage.read('club-1').find(['entry-1', 'entry-2']);
			expect(found.get('entry-1')).toMatchObject({ where: 'erased', textDigest: '' });
			expect(found.get('entry-2')).toMatchObject({ where: 'volume' });
			expect(await storage.read('club-1').volume('digest-1')).toBeNull();
			expect((await storage.read('club-1').volumes()).map(({ digest }) => digest)).toEqual(['digest-2']);
		});
	});
}
