import { offlineWorks, wayOut } from '#server/http/offlineWorks.ts';

export const load = ({ url, locals }) => ({
	isSignedIn: locals.session !== null,
	notOffline: offlineWorks(url) ? null : wayOut
});
