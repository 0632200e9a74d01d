/** What a plan was made with, kept on the device that sent it, so that a repair knows the same wishes and its plan B. */
import { defaultSettings, type SeasonSettings } from '#season/seasonSettings.ts';
import { keepPlanMadeWith, readPlanMadeWith, type DraftPlace } from '#workers/planDraft.ts';
import type { KeptPlanB } from './planB.svelte.ts';

interface MadeWith {
	readonly settings: Partial<SeasonSettings>;
	readonly planB: KeptPlanB | null;
}

function read(place: DraftPlace, plan: string): MadeWith {
	const kept = readPlanMadeWith(place, plan) as Partial<MadeWith> | Partial<SeasonSettings> | null;
	if (kept && 'planB' in kept) return { settings: kept.settings ?? {}, planB: kept.planB ?? null };
	// An older app kept the settings alone.
	return { settings: (kept as Partial<SeasonSettings> | null) ?? {}, planB: null };
}

export function keepPlanSettings(
	place: DraftPlace,
	plan: string,
	settings: SeasonSettings,
	planB: KeptPlanB | null
): void {
	keepPlanMadeWith(place, plan, { settings, planB } satisfies MadeWith);
}

/** @returns the usual settings when another device sent the plan */
export function planSettings(place: DraftPlace, plan: string): SeasonSettings {
	return { ...defaultSettings, ...read(place, plan).settings };
}

export function sentPlanB(place: DraftPlace, plan: string): KeptPlanB | null {
	return read(place, plan).planB;
}

/**
 * Keeps plan B of a plan that was sent. Answers for bags and rooms that do not stand any more are kept beside the new
 * ones: what was prepared for a no is wanted once the no has come.
 */
export function keepSentPlanB(place: DraftPlace, plan: string, found: KeptPlanB): KeptPlanB {
	const { settings, planB } = read(place, plan);
	const told = new Set(found.answers.map((answer) => JSON.stringify(answer.case)));
	const before = (planB?.answers ?? []).filter((answer) => !told.has(JSON.stringify(answer.case)));
	const both = { ...found, answers: [...found.answers, ...before] };
	keepPlanMadeWith(place, plan, { settings, planB: both } satisfies MadeWith);
	return both;
}
