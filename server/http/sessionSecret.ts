import { sessionCookie } from '../auth/session.ts';

/** The session's secret in a plain Cookie header: for the websocket, which no page handles. */
export function secretInHeader(header: string | undefined): string | null {
	for (const part of (header ?? '').split(';')) {
		const [name, ...value] = part.trim().split('=');
		if (name === sessionCookie) return decodeURIComponent(value.join('='));
	}
	return null;
}
