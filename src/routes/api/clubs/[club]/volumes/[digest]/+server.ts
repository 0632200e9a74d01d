import { AppError } from '#server/appError.ts';
import { mayOpen } from '#server/club/mayOpen.ts';
import { answer } from '../../../../../answer.server.ts';
import { seatOf } from '../../../../../ask.server.ts';

/** A closed volume, known by its digest: it never changes, but only members who may open it get it. */
export const GET = answer(async (event) => {
	const { db, ledger } = event.locals.app;
	const { member, club } = seatOf(event);
	const audiences: string[] = [];
	for (const audience of await ledger.audiences(club))
		if (await mayOpen(db, member, club, audience)) audiences.push(audience);
	const content = await ledger.volume(club, event.params.digest ?? '', audiences);
	if (!content) throw new AppError('not-found');
	const headers = {
		// The bytes are the file, whose digest the device checks; no Content-Encoding, so nothing on the way undoes it.
		'content-type': 'application/gzip',
		'content-length': String(content.byteLength),
		'cache-control': 'private, max-age=31536000, immutable',
		vary: 'cookie'
	};
	return new Response(Buffer.from(content), { headers });
});
