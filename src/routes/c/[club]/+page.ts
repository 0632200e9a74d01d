import { redirect } from '@sveltejs/kit';
import type { PageLoad } from './$types.d.ts';

/** A club opens with its lines, the most endangered first. */
export const load: PageLoad = ({ params }) => {
	redirect(307, `/c/${params.club}/lines`);
};
