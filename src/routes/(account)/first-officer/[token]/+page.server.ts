import { AppError } from '#server/appError.ts';
import { regionField, timeZoneField, words, wordsOrNothing } from '#server/http/fields.ts';
import { formAction } from '../../../answer.server.ts';
import { callerOf } from '../../../ask.server.ts';
import { signInBrowser } from '../../../signInBrowser.server.ts';

export const load = async (event) => {
	try {
		await event.locals.app.accounts.look(event.params.token, ['first-officer'], callerOf(event));
	} catch (error) {
		if (error instanceof AppError) return { problem: error.message, timeZones: [] as string[], timeZone: '' };
		throw error;
	}
	const { timeZone } = new Intl.DateTimeFormat().resolvedOptions();
	const timeZones = [...new Set(['UTC', timeZone, ...Intl.supportedValuesOf('timeZone')])].sort();
	return { problem: null, timeZones, timeZone };
};

export const actions = {
	default: formAction(async (event, fields) => {
		const region = regionField.parse(fields.region ?? '');
		const club = { name: words.parse(fields.club), timeZone: timeZoneField(fields.timeZone ?? ''), region };
		const roomName = wordsOrNothing.parse(fields.room ?? '');
		const room = roomName === '' ? null : { name: roomName, region, house: '' };
		const given = { signInName: words.parse(fields.signInName), password: fields.password ?? '' };
		const { accounts } = event.locals.app;
		const name = words.parse(fields.name);
		const now = await accounts.openFirstClub(event.params.token, club, name, given, room, callerOf(event));
		return signInBrowser(event, now);
	})
};
