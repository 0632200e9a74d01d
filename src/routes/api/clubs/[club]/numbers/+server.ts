import { z } from 'zod';
import type { NumbersGiven } from '#protocol/api.ts';
import { giveNumberBlocks, mostBlocksAtOnce } from '#server/club/numberBlocks.ts';
import { idField } from '#server/http/fields.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { seatOf } from '../../../../ask.server.ts';

const asked = z.object({ request: idField, blocks: z.int().min(1).max(mostBlocksAtOnce) });

/** Bag numbers for this device, for labels and for days without signal. */
export const POST = answer(async (event): Promise<NumbersGiven> => {
	const { club, device } = seatOf(event);
	const { request, blocks } = await bodyOf(event, asked);
	const { db, now } = event.locals.app;
	return { blocks: await giveNumberBlocks(db, club, device, { request, blocks, at: now() }) };
});
