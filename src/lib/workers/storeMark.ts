/**
 * A mark outside the database that says a store has been on this browser, and what was in it: browsers may throw a
 * database away without a word, and only something kept elsewhere can tell.
 */
export interface StoreMark {
	/** Entries not shared when it was last heard of. */
	readonly unshared: number;
	/** ms since 1970 */
	readonly at: number;
}

const prefix = 'kithline-store:';

export function readStoreMark(club: string, member: string): StoreMark | null {
	try {
		return JSON.parse(localStorage.getItem(markName(club, member)) ?? 'null') as StoreMark | null;
	} catch {
		return null;
	}
}

export function setStoreMark(club: string, member: string, mark: StoreMark | null): void {
	try {
		if (mark) localStorage.setItem(markName(club, member), JSON.stringify(mark));
		else localStorage.removeItem(markName(club, member));
	} catch {
		// Without the mark an eviction is not noticed; nothing is lost by that.
	}
}

function markName(club: string, member: string): string {
	return `${prefix}${encodeURIComponent(club)}:${encodeURIComponent(member)}`;
}
