import { AppError } from '#server/appError.ts';
import { seatIn } from '#server/auth/session.ts';
import { words, wordsOrNothing } from '#server/http/fields.ts';
import { formAction } from '../../answer.server.ts';
import { callerOf, signedIn, signedInOrSent } from '../../ask.server.ts';
import { setSession } from '../../cookies.server.ts';

export const load = async (event) => {
	const { account, clubs, confined } = signedInOrSent(event);
	const { db } = event.locals.app;
	const row = await db
		.selectFrom('account')
		.select(['signInName', 'email', 'phone', 'street', 'guardian'])
		.where('id', '=', account)
		.executeTakeFirstOrThrow();
	const rooms = await Promise.all(
		clubs.map(({ member }) =>
			db
				.selectFrom('keeper')
				.innerJoin('room', 'room.id', 'keeper.room')
				.select(['room.name', 'room.region'])
				.where('keeper.member', '=', member)
				.orderBy('room.name')
				.execute()
		)
	);
	const mine = clubs.map(({ club, clubName, name }, i) => ({ club, clubName, name, rooms: rooms[i] ?? [] }));
	// Opened by an officer's link for one club: what belongs to the person's other clubs stays closed.
	return { clubs: mine, confined, person: confined ? null : row };
};

/** @throws AppError `not-allowed` for a session that one club's officer opened */
function own(event: Parameters<typeof signedIn>[0]) {
	const session = signedIn(event);
	if (session.confined) throw new AppError('not-allowed', session.account);
	return session;
}

export const actions = {
	name: formAction(async (event, { club = '', name = '' }) => {
		const seat = seatIn(signedIn(event), club);
		if (!seat) throw new AppError('not-allowed');
		await event.locals.app.office.rename(club, seat.member, words.parse(name), seat.member);
		return { done: `You are now shown as ${name.trim()}.`, at: 'name' };
	}),
	contact: formAction(async (event, fields) => {
		const { account } = own(event);
		const read = (name: string) => wordsOrNothing.parse(fields[name] ?? '');
		const contact = {
			email: read('email'),
			phone: read('phone'),
			street: read('street'),
			guardian: read('guardian')
		};
		const { db } = event.locals.app;
		await db.updateTable('account').set(contact).where('id', '=', account).execute();
		return { done: 'Your contact details are kept.', at: 'contact' };
	}),
	password: formAction(async (event, { password = '', newPassword = '' }) => {
		const { app, secure } = event.locals;
		const { account } = own(event);
		const { secret } = await app.accounts.changePassword(account, password, newPassword, callerOf(event));
		setSession(event.cookies, app.sessions, secure, secret);
		return { done: 'The password is changed. All your other devices are signed out.', at: 'password' };
	})
};
