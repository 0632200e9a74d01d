import { error } from '@sveltejs/kit';
import type { PageLoad } from './$types.d.ts';

/** An address below a club that means nothing: said inside the club's frame. */
export const load: PageLoad = () => error(404, 'There is no such page.');
