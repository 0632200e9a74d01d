import { z } from 'zod';
import { limits } from '#protocol/limits.ts';
import { AppError } from '#server/appError.ts';
import { mayOpen } from '#server/club/mayOpen.ts';
import { answer, bodyOf } from '../../../../answer.server.ts';
import { officerOf } from '../../../../ask.server.ts';

const asked = z.object({
	audience: z.string().max(200).default('club'),
	/** The entries' JSON texts, unchanged. */
	texts: z.array(z.string().max(limits.maxEntryBytes)).min(1).max(500)
});

/** An officer brings entries of somebody who can no longer sign in from a saved file. */
export const POST = answer(async (event) => {
	const { club, member, device } = officerOf(event);
	const { audience, texts } = await bodyOf(event, asked);
	const { db, ledger } = event.locals.app;
	const isOpen = (await ledger.audiences(club)).includes(audience);
	if (!isOpen || !(await mayOpen(db, member, club, audience))) throw new AppError('not-allowed', member);
	return { brought: await ledger.bring(club, audience, texts, { member, device }) };
});
