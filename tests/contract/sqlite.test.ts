import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openDatabase, type Database } from '#server/storage/database.ts';
import { createSqliteStorage } from '#server/storage/sqlite.ts';
import { storageContract } from './storage.ts';

storageContract('the embedded SQLite storage', async () => {
	const folder = await mkdtemp(join(tmpdir(), 'kithline-storage-'));
	const opened: Database[] = [];
	const open = () => {
		const database = openDatabase(join(folder, 'club.sqlite'));
		opened.push(database);
		return createSqliteStorage(database);
	};
	return {
		storage: open(),
		again: async () => open(),
		async close() {
			for (const database of opened) await database.close();
			await rm(folder, { recursive: true });
		}
	};
});
