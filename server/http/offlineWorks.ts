/**
 * Whether browsers keep an app for days without signal at this address: only over https or on the machine itself
 * (W3C Secure Contexts, "potentially trustworthy origin").
 */
export function offlineWorks(url: URL): boolean {
	if (url.protocol === 'https:') return true;
	const host = url.hostname;
	return (
		host === 'localhost' ||
		host.endsWith('.localhost') ||
		host === '[::1]' ||
		/^127(\.\d{1,3}){3}$/.test(host)
	);
}

/** The way out, for the console and the first page. */
export const wayOut =
	'Give the server an address that begins with https: put a web server with a certificate in front of it (for example one that gets certificates by itself), and start Kithline with ORIGIN=https://your.address.';
