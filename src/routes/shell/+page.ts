/** The empty page that the service worker answers with for every address of a club; the app finds its own way. */
export const ssr = false;
export const prerender = true;
