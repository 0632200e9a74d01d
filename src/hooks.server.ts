import { building } from '$app/environment';
import type { Handle, HandleServerError, ServerInit } from '@sveltejs/kit';
import { AppError, problems } from '#server/appError.ts';
import { sessionCookie } from '#server/auth/session.ts';
import { bridge, setBridge } from '#server/bridge.ts';
import { readConfig } from '#server/config.ts';
import { createApp, type App } from '#server/http/app.ts';
import { isForeign, securityHeaders, withSocketOrigin } from '#server/http/headers.ts';
import { logProblem } from './routes/answer.server.ts';
import { browserToken } from './routes/cookies.server.ts';

/** The one app of this process; pages are built without it. */
let app: App | null = null;

export const init: ServerInit = async () => {
	if (building) return;
	// In development a changed file starts this module anew: the app before it gives up the database first.
	await bridge()?.close(() => Promise.resolve());
	const config = readConfig();
	const started = await createApp(config);
	app = started;
	setBridge({
		onUpgrade(request, socket, head) {
			if (!started.sync.upgrade(request, socket, head)) socket.destroy();
		},
		headers: securityHeaders,
		port: config.port,
		host: config.host,
		greeting: (port) => started.greeting(port),
		close: (answered) => started.close(answered)
	});
};

export const handle: Handle = async ({ event, resolve }) => {
	if (!app) return resolve(event);
	const { locals, cookies, url, request } = event;
	if (isForeign(request, url)) {
		const { sentence, whatToDo, status } = problems['foreign-page'];
		return Response.json({ code: 'foreign-page', sentence, whatToDo }, { status });
	}
	locals.app = app;
	locals.secure = url.protocol === 'https:';
	locals.browser = browserToken(cookies, app.sessions, locals.secure);
	locals.session = await app.sessions.read(cookies.get(sessionCookie));
	const response = await resolve(event);
	for (const [name, value] of Object.entries(securityHeaders)) response.headers.set(name, value);
	const policy = response.headers.get('content-security-policy');
	if (policy) response.headers.set('content-security-policy', withSocketOrigin(policy, url));
	// Nothing that was made for one person may be kept by a cache between.
	if (!response.headers.has('cache-control')) response.headers.set('cache-control', 'no-store');
	return response;
};

export const handleError: HandleServerError = ({ error, status, message }) => {
	if (error instanceof AppError) return { message: error.message, code: error.code };
	if (status === 404) return { message, code: 'not-found' };
	logProblem(error);
	return { message: problems['server-problem'].sentence, code: 'server-problem' };
};
