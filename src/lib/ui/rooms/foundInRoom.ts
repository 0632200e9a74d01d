import type { RoomPage } from '#club/rooms/roomPage.ts';

/**
 * Which lines and groups of a room fit what is looked for? A line that fits by its own name keeps all its groups; of
 * the others stay the groups that fit by name or tank. Every word must be found; accents and case make no difference.
 */
export function foundInRoom(page: Shown, search: string): Shown {
	const words = plain(search).split(/\s+/).filter(Boolean);
	if (words.length === 0) return page;
	// "rack 3" means that rack, not rack 10 with a tank 3, as long as there is one.
	const asTyped = fitting(page, (text) => text.includes(words.join(' ')));
	if (asTyped.lines.length || asTyped.otherGroups.length) return asTyped;
	return fitting(page, (text) => words.every((word) => text.includes(word)));
}

type Shown = Pick<RoomPage, 'lines' | 'otherGroups'>;

function fitting(page: Shown, fit: (text: string) => boolean): Shown {
	const fits = (...texts: readonly string[]) => fit(plain(texts.join(' ')));
	return {
		lines: page.lines.flatMap((line) => {
			if (fits(line.name, line.code)) return line;
			const groups = line.groups.filter((group) => fits(line.name, line.code, group.name, group.tank));
			return groups.length ? { ...line, groups } : [];
		}),
		otherGroups: page.otherGroups.filter((group) => fits(group.name, group.tank))
	};
}

function plain(text: string): string {
	return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}
