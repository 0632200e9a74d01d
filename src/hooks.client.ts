import { dev } from '$app/environment';
import { registerWorker } from '#ui/shared/registerWorker.ts';
import type { ClientInit, HandleClientError } from '@sveltejs/kit';

export const init: ClientInit = () => {
	if (!dev) registerWorker();
};

export const handleError: HandleClientError = ({ error, message, status }) => {
	console.error(error);
	// A chunk that cannot be fetched means no signal on a page that was never kept, or a build that is gone.
	const words = error instanceof Error ? error.message : message;
	const unreachable = /fetch|import|network/i.test(words);
	return { message, code: status === 404 ? 'not-found' : unreachable ? 'unreachable' : 'broken' };
};
