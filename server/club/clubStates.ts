/**
 * The club state as the server sees it: the fold of the club's own ledger, as every device has it. Asked for where a
 * right hangs on what members agreed (contact details) and where officers pick a line.
 */
import { promisify } from 'node:util';
import { gunzip } from 'node:zlib';
import type { VolumeRow } from '#protocol/messages.ts';
import { Fold, type FoldInput } from '#records/fold.ts';
import type { ClubState } from '#records/state.ts';
import type { Ledger } from '../ledger/ledger.ts';

const decompress = promisify(gunzip);
/** Folds kept in memory, the least recently asked leaves first. */
const mostKept = 20;

interface Kept {
	readonly edition: string;
	readonly fold: Fold;
	readonly volumes: Set<string>;
	lastRow: number;
}

export interface ClubStates {
	of(club: string): Promise<ClubState>;
}

export function createClubStates(ledger: Ledger): ClubStates {
	const kept = new Map<string, Promise<Kept>>();

	async function fresh(club: string, before: Kept | null): Promise<Kept> {
		const { edition, audiences } = await ledger.manifest(club, ['club']);
		const state: Kept =
			before?.edition === edition ? before : { edition, fold: new Fold(), volumes: new Set(), lastRow: 0 };
		const inputs: FoldInput[] = [];
		for (const { digest, lastRow } of audiences[0]?.volumes ?? []) {
			if (state.volumes.has(digest)) continue;
			state.volumes.add(digest);
			// Rows heard while the volume's document was open are in the fold already.
			if (lastRow <= state.lastRow) continue;
			const content = await ledger.volume(club, digest, ['club']);
			if (!content) continue;
			for (const line of (await decompress(content)).toString('utf8').split('\n')) {
				if (line === '') continue;
				const { n, id, text, stamp } = JSON.parse(line) as VolumeRow;
				if (text !== '')
					inputs.push(stamp === undefined ? { text } : { text, stamp: { id, n, time: stamp } });
			}
		}
		let lastRow = state.lastRow;
		for (const { n, id, text, time, stampClock } of await ledger.openRows(club, 'club')) {
			if (n > state.lastRow) inputs.push(stampClock === null ? { text } : { text, stamp: { id, n, time } });
			lastRow = Math.max(lastRow, n);
		}
		state.fold.add(inputs);
		state.lastRow = lastRow;
		return state;
	}

	return {
		async of(club) {
			// One after the other for a club, so that no row is folded into two folds.
			const before = kept.get(club)?.catch(() => null) ?? Promise.resolve(null);
			const asked = before.then((state) => fresh(club, state));
			kept.delete(club);
			kept.set(club, asked);
			for (const oldest of kept.keys()) {
				if (kept.size <= mostKept) break;
				kept.delete(oldest);
			}
			return (await asked).fold.state;
		}
	};
}
