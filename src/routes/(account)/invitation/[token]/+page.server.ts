import { AppError } from '#server/appError.ts';
import { words } from '#server/http/fields.ts';
import { formAction } from '../../../answer.server.ts';
import { callerOf } from '../../../ask.server.ts';
import { signInBrowser } from '../../../signInBrowser.server.ts';

/** Looking does not use the link up: chat programs open every link that they see. */
export const load = async (event) => {
	const { app } = event.locals;
	try {
		const link = await app.accounts.look(event.params.token, ['invitation'], callerOf(event));
		const club = await app.db
			.selectFrom('club')
			.select('name')
			.where('id', '=', link.club)
			.executeTakeFirst();
		return { clubName: club?.name ?? '', name: link.name };
	} catch (error) {
		if (error instanceof AppError) return { clubName: null, name: '', problem: error.message };
		throw error;
	}
};

function join(existing: boolean) {
	return formAction(async (event, { name = '', signInName = '', password = '' }) => {
		const given = { signInName: words.parse(signInName), password };
		const { accounts } = event.locals.app;
		const token = event.params.token ?? '';
		const now = await accounts.acceptInvitation(token, words.parse(name), given, existing, callerOf(event));
		return signInBrowser(event, now);
	});
}

export const actions = { new: join(false), existing: join(true) };
