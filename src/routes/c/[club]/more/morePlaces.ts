export interface MorePlace {
	readonly title: string;
	readonly under: string;
	/** Below the club; with a slash at the start from the root. */
	readonly href: string;
}

export const morePlaces: readonly MorePlace[] = [
	{ title: 'Ready for the hall', under: 'What this device has for a day without signal', href: 'ready' },
	{ title: 'Help', under: 'The app on the home screen; what the words mean', href: 'help' }
];
