interface Named {
	readonly id: string;
	readonly name: string;
}

/** A role in words: "coordinator of Speckled". */
export function roleWords(
	role: { readonly role: string; readonly of: string },
	lines: readonly Named[],
	meetings: readonly Named[]
): string {
	if (role.role === 'officer') return 'officer';
	const thing = [...lines, ...meetings].find(({ id }) => id === role.of)?.name;
	if (role.role === 'runner') return `runs the bags at ${thing ?? 'a meeting not heard of yet'}`;
	return `${role.role} of ${thing ?? 'a line not heard of yet'}`;
}
