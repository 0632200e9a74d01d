/** Blocks of bag numbers for a device: ranges of whole numbers, never given twice in a club, whatever becomes of them. */
import type { DeviceId } from '#records/entry.ts';
import { AppError } from '../appError.ts';
import type { Db, Tx } from './tables.ts';

export const blockSize = 50;
/** One in use and two untouched ones behind it. */
export const mostBlocksAtOnce = 3;
/** 2,000 labels a day on one device are a mistake or an attack: the club's 8 digits must last. */
const mostBlocksADay = 40;
/** The first number has three digits, as a label has at least. */
const firstNumber = 101;
const dayMs = 24 * 60 * 60_000;

export interface NumberBlock {
	readonly first: number;
	readonly last: number;
}

/**
 * Gives a device some blocks. The same request again gets the same blocks, so that an answer lost on the way costs
 * nothing.
 * @param asked `request`: the device's own name for this request; `blocks`: 1 to 3; `at`: ms since 1970
 * @throws AppError `too-many-numbers`
 */
export async function giveNumberBlocks(
	db: Db,
	club: string,
	device: DeviceId,
	asked: { readonly request: string; readonly blocks: number; readonly at: number }
): Promise<NumberBlock[]> {
	return db.transaction().execute(async (transaction) => {
		const given = await transaction
			.selectFrom('numberBlock')
			.select(['first', 'last'])
			.where('club', '=', club)
			.where('device', '=', device)
			.where('request', '=', asked.request)
			.orderBy('first')
			.execute();
		if (given.length > 0) return given;
		const { today } = await transaction
			.selectFrom('numberBlock')
			.select((all) => all.fn.countAll().as('today'))
			.where('club', '=', club)
			.where('device', '=', device)
			.where('givenAt', '>', asked.at - dayMs)
			.executeTakeFirstOrThrow();
		if (Number(today) + asked.blocks > mostBlocksADay) throw new AppError('too-many-numbers', device);
		const start = await nextNumber(transaction, club);
		const blocks = Array.from({ length: asked.blocks }, (_, i) => {
			const first = start + i * blockSize;
			return { first, last: first + blockSize - 1 };
		});
		const rows = blocks.map((block) => ({
			club,
			device,
			request: asked.request,
			givenAt: asked.at,
			...block
		}));
		await transaction.insertInto('numberBlock').values(rows).execute();
		return blocks;
	});
}

async function nextNumber(transaction: Tx, club: string): Promise<number> {
	const { highest } = await transaction
		.selectFrom('numberBlock')
		.select((all) => all.fn.max('last').as('highest'))
		.where('club', '=', club)
		.executeTakeFirstOrThrow();
	return highest === null ? firstNumber : Number(highest) + 1;
}

/** Leaves out so many numbers for good: after a restored backup, which may not know the last ones given. */
export async function skipNumbers(db: Db, club: string, count: number, at: number): Promise<void> {
	await db.transaction().execute(async (transaction) => {
		const first = await nextNumber(transaction, club);
		const row = { club, first, last: first + count - 1, device: '', request: `skipped ${at}`, givenAt: at };
		await transaction.insertInto('numberBlock').values(row).execute();
	});
}
