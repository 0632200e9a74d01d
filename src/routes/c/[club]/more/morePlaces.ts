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
		title: 'Needs you',
		under: 'Answers, bags to settle, doubts, words of yours that do not count yet',
		href: 'needs',
		shape: 'speech'
	},
	{
		title: 'Today on this phone',
		under: 'What was written here, newest first',
		href: 'today',
		shape: 'tally'
	},
	{
		title: 'Not yet shared',
		under: 'What is only on this device; save it to a file, load a file',
		href: 'unshared',
		shape: 'phone'
	},
	{
		title: 'Meetings',
		under: 'Who is coming, which bags were handed over',
		href: 'meetings',
		shape: 'linked'
	},
	{
		title: 'Exchange plans',
		under: 'Who should swap what with whom this season, and why',
		href: 'plans',
		shape: 'list'
	},
	{ title: 'All rooms', under: 'Every room of the club and what it holds', href: 'rooms', shape: 'door' },
	{ title: 'First list', under: 'Paste an old list of lines and rooms', href: 'list', shape: 'list' },
	{
		title: 'Ready for the hall',
		under: 'What this device has for a day without signal',
		href: 'ready',
		shape: 'tick'
	},
	{ title: 'People', under: 'Members, roles and rooms; needs a signal', href: 'people', shape: 'speech' },
	{ title: 'My account', under: 'Password and contact; needs a signal', href: '/account', shape: 'dot' },
	{ title: 'Help', under: 'The app on the home screen; what the words mean', href: 'help', shape: 'question' }
];
