import type { ContactsShown } from '#protocol/api.ts';
import { AppError } from '#server/appError.ts';
import { contactsOf, contactsOpenTo, keepersOf } from '#server/club/contacts.ts';
import { answer } from '../../../../../answer.server.ts';
import { seatOf } from '../../../../../ask.server.ts';

/** How to reach the other side of an agreed exchange. No such exchange and no right to it look the same. */
export const GET = answer(async (event): Promise<ContactsShown> => {
	const { club, member } = seatOf(event);
	const { db, states } = event.locals.app;
	const exchange = (await states.of(club)).exchanges.get(event.params.exchange ?? '');
	if (!exchange) throw new AppError('not-allowed');
	const givers = await keepersOf(
		db,
		club,
		exchange.gives.map(({ fromRoom }) => fromRoom)
	);
	const receivers = await keepersOf(db, club, exchange.toRoom ? [exchange.toRoom] : []);
	const open = contactsOpenTo(member, { stage: exchange.stage, givers, receivers });
	if (open.length === 0) throw new AppError('not-allowed', member);
	return { contacts: await contactsOf(db, club, open) };
});
