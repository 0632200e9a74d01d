/**
 * A plan that is being worked out, kept on this device until it is sent or thrown away: neither a reload nor a way
 * back loses it. One for each member of a club on this browser.
 */
const prefix = 'kithline-plan:';

export interface DraftPlace {
	readonly club: string;
	readonly member: string;
}

const nameOf = ({ club, member }: DraftPlace) =>
	`${prefix}${encodeURIComponent(club)}:${encodeURIComponent(member)}`;

/** @returns what was kept last; null = nothing, or something that an older app wrote */
export function readPlanDraft<Draft extends { readonly version: number }>(
	place: DraftPlace,
	version: Draft['version']
): Draft | null {
	try {
		const read = JSON.parse(localStorage.getItem(nameOf(place)) ?? 'null') as Draft | null;
		return read?.version === version ? read : null;
	} catch {
		return null;
	}
}

/** @param draft null = thrown away */
export function keepPlanDraft(place: DraftPlace, draft: { readonly version: number } | null): void {
	try {
		if (draft) localStorage.setItem(nameOf(place), JSON.stringify(draft));
		else localStorage.removeItem(nameOf(place));
	} catch {
		// A browser that keeps nothing loses the plan with the page; it is worked out again in seconds.
	}
}

const madeWithName = (place: DraftPlace) => `${nameOf(place)}:sent`;
const plansKept = 20;
type MadeWith = readonly (readonly [plan: string, settings: unknown])[];

function allMadeWith(place: DraftPlace): MadeWith {
	try {
		return JSON.parse(localStorage.getItem(madeWithName(place)) ?? '[]') as MadeWith;
	} catch {
		return [];
	}
}

/** What a plan that was sent was made with; those of the last plans are kept. */
export function keepPlanMadeWith(place: DraftPlace, plan: string, settings: unknown): void {
	const others = allMadeWith(place).filter(([id]) => id !== plan);
	try {
		localStorage.setItem(
			madeWithName(place),
			JSON.stringify([...others, [plan, settings]].slice(-plansKept))
		);
	} catch {
		// A repair then goes by the usual settings.
	}
}

export function readPlanMadeWith(place: DraftPlace, plan: string): unknown {
	return allMadeWith(place).find(([id]) => id === plan)?.[1] ?? null;
}

/** Signed out: nothing of a plan may stay on this browser. */
export function forgetPlans(place: DraftPlace): void {
	keepPlanDraft(place, null);
	try {
		localStorage.removeItem(madeWithName(place));
	} catch {
		// Nothing was kept.
	}
}
