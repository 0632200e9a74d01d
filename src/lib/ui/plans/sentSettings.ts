/** What a plan was made with, kept on the device that sent it, so that a repair knows the same wishes. */
import { defaultSettings, type SeasonSettings } from '#season/seasonSettings.ts';
import { keepPlanMadeWith, readPlanMadeWith, type DraftPlace } from '#workers/planDraft.ts';

export function keepPlanSettings(place: DraftPlace, plan: string, settings: SeasonSettings): void {
	keepPlanMadeWith(place, plan, settings);
}

/** @returns the usual settings when another device sent the plan */
export function planSettings(place: DraftPlace, plan: string): SeasonSettings {
	return { ...defaultSettings, ...(readPlanMadeWith(place, plan) as Partial<SeasonSettings> | null) };
}
