import type { Purpose } from '#server/auth/invitations.ts';

/** Where each sort of link leads. */
export const onceLinkPages: Record<Purpose, string> = {
	invitation: '/invitation',
	'sign-in': '/sign-in-link',
	'first-officer': '/first-officer'
};
