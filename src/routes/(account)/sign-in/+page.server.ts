import { formAction } from '../../answer.server.ts';
import { callerOf } from '../../ask.server.ts';
import { signInBrowser } from '../../signInBrowser.server.ts';

export const actions = {
	default: formAction(async (event, { signInName = '', password = '' }) => {
		const caller = callerOf(event);
		const now = await event.locals.app.accounts.signIn(signInName, password, caller);
		return signInBrowser(event, now, event.url.searchParams.get('to'));
	})
};
