import { AppError } from '#server/appError.ts';
import { isElsewhere } from '#server/auth/accounts.ts';
import { formAction } from '../../../answer.server.ts';
import { callerOf } from '../../../ask.server.ts';
import { signInBrowser } from '../../../signInBrowser.server.ts';

export const load = async (event) => {
	const { accounts, db } = event.locals.app;
	try {
		const { account, club } = await accounts.look(event.params.token, ['sign-in'], callerOf(event));
		const row = await db
			.selectFrom('account')
			.select('signInName')
			.where('id', '=', account)
			.executeTakeFirstOrThrow();
		// Somebody who is in other clubs too keeps the password: see accounts.ts.
		const confined = club !== null && (await isElsewhere(db, account!, club));
		return { problem: null, signInName: confined ? '' : row.signInName, confined };
	} catch (error) {
		if (error instanceof AppError) return { problem: error.message, signInName: '', confined: false };
		throw error;
	}
};

export const actions = {
	default: formAction(async (event, { password = '' }) => {
		const token = event.params.token ?? '';
		return signInBrowser(
			event,
			await event.locals.app.accounts.useSignInLink(token, password, callerOf(event))
		);
	})
};
