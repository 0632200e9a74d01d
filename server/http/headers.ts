/** Headers that protect people whatever the answer is, and who may send what from where. */

/** On every answer, files included. */
export const securityHeaders = {
	'x-content-type-options': 'nosniff',
	'x-frame-options': 'DENY',
	// Links that work once stand in addresses: no other site may hear of them. Not `no-referrer`: with that, browsers
	// send a form's Origin as "null", and our own forms would be taken for foreign ones.
	'referrer-policy': 'same-origin',
	'cross-origin-resource-policy': 'same-origin',
	// The camera reads bag labels.
	'permissions-policy': 'camera=(self), geolocation=(), microphone=(), payment=(), usb=()'
} as const;

/** What some browsers need spelled out beside 'self': the socket of the same host. */
export function withSocketOrigin(policy: string, url: URL): string {
	return policy.replace("connect-src 'self'", `connect-src 'self' ws://${url.host} wss://${url.host}`);
}

/**
 * Whether a request that changes something came from another site's page. Browsers say so (Origin, Fetch Metadata);
 * a program that is no browser says neither, and carries nobody's cookies by accident.
 */
export function isForeign(request: Request, url: URL): boolean {
	if (/^(GET|HEAD|OPTIONS)$/.test(request.method)) return false;
	const origin = request.headers.get('origin');
	if (origin !== null) return origin !== url.origin;
	const site = request.headers.get('sec-fetch-site');
	return site !== null && site !== 'same-origin' && site !== 'none';
}
