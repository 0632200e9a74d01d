import { redirect } from '@sveltejs/kit';
import { AppError } from '#server/appError.ts';
import { readCode } from '#server/auth/token.ts';
import { formAction } from '../../answer.server.ts';
import { callerOf } from '../../ask.server.ts';
import { onceLinkPages } from '../onceLinkPages.server.ts';

export const actions = {
	default: formAction(async (event, { code = '' }) => {
		const digits = readCode(code);
		if (!digits) throw new AppError('link-failed');
		const { purpose } = await event.locals.app.accounts.look(
			digits,
			['invitation', 'sign-in'],
			callerOf(event)
		);
		redirect(303, `${onceLinkPages[purpose]}/${digits}`);
	})
};
