import type { Me } from '#protocol/api.ts';
import { offlineWorks } from '#server/http/offlineWorks.ts';
import { answer } from '../../answer.server.ts';
import { signedIn } from '../../ask.server.ts';

export const GET = answer(async (event): Promise<Me> => {
	const { clubs, confined } = signedIn(event);
	return { clubs, confined, offlineWorks: offlineWorks(event.url) };
});
