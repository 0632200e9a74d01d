import type { BagLabelData } from '#ui/labels/bagLabel.ts';
import type { HistoryItem } from '#ui/shared/History.svelte';
import type { WordOf } from '#ui/shared/statusWords.ts';
import type { Certainty, Fish } from '#records/state.ts';
import type { PageLoad } from './$types.d.ts';

export interface SampleLine {
	readonly code: string;
	readonly name: string;
	readonly kind: 'conservation' | 'strain';
	readonly locality: string;
	readonly state: WordOf<'line'>;
	readonly because: string;
	readonly rooms: number;
}
export interface SampleGroup {
	readonly id: string;
	readonly name: string;
	readonly line: string;
	readonly room: string;
	readonly stage: WordOf<'brood'>;
	readonly fish: Fish;
	readonly certainty: Certainty;
	readonly confirmedDays: number;
}

export const ssr = false;

export const load: PageLoad = async ({ fetch }) => {
	const sample = async <Of>(name: string): Promise<Of> => (await fetch(`/samples/${name}.json`)).json();
	return {
		lines: await sample<SampleLine[]>('lines'),
		groups: await sample<SampleGroup[]>('groups'),
		bags: await sample<BagLabelData[]>('bags'),
		history: await sample<HistoryItem[]>('history')
	};
};
