import type { ShapeName } from '#ui/shared/shapes.ts';

export interface MorePlace {
	readonly title: string;
	readonly under: string;
	/** Below the club; with a slash at the start from the root. */
	readonly href: string;
	readonly shape: ShapeName;
}

export const morePlaces: readonly MorePlace[] = [
	{
		title: 'Ready for the hall',
		under: 'What this device has for a day without signal',
		href: 'ready',
		shape: 'phone'
	},
	{ title: 'People', under: 'Members, roles and rooms; needs a signal', href: 'people', shape: 'linked' },
	{ title: 'My account', under: 'Password and contact; needs a signal', href: '/account', shape: 'door' },
	{ title: 'Help', under: 'The app on the home screen; what the words mean', href: 'help', shape: 'question' }
];
