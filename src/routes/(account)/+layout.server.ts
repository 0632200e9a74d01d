import { offlineWorks, wayOut } from '#server/http/offlineWorks.ts';

export const load = ({ url, locals }) => ({
	isSignedIn: locals.session !== null,
	// Said on the first page and where a club begins; further in it would only be in the way.
	notOffline: /^\/($|first-officer\/)/.test(url.pathname) && !offlineWorks(url) ? wayOut : null
});
