import { AppError } from '#server/appError.ts';
import { mayOpen } from '#server/club/mayOpen.ts';
import { answer } from '../../../../answer.server.ts';
import { seatOf } from '../../../../ask.server.ts';

/** What a device asks for before connecting: the edition, volumes and open documents of what its member may open. */
export const GET = answer(async (event) => {
	const { db, ledger } = event.locals.app;
	const { member, club } = seatOf(event);
	// Somebody else has signed in on that browser while the asking member's page stayed open.
	if ((event.url.searchParams.get('member') ?? member) !== member) throw new AppError('signed-out');
	const audiences: string[] = [];
	for (const audience of await ledger.audiences(club))
		if (await mayOpen(db, member, club, audience)) audiences.push(audience);
	return ledger.manifest(club, audiences);
});
