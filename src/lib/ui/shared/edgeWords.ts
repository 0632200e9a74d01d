import type { ShapeName } from './shapes.ts';
import type { Tone } from './statusWords.ts';

/**
 * What does the quiet line at the edge say? The most pressing thing only: a problem, what is not shared, what needs
 * this person, and else that everything is shared.
 */
export function edgeWords(of: {
	readonly unshared: number;
	readonly online: boolean;
	readonly needsYou: number;
	readonly problem: string;
	/** The first seconds after opening: whether there is a signal is not known yet. */
	readonly reaching?: boolean;
}): { readonly words: string; readonly tone: Tone; readonly shape: ShapeName } {
	const needs = of.needsYou > 0 ? `${of.needsYou} ${of.needsYou === 1 ? 'needs' : 'need'} you` : '';
	if (of.problem) return { words: of.problem, tone: 'alarm', shape: 'heed' };
	if (of.unshared > 0) {
		const safe = of.online || of.reaching ? 'not shared yet' : 'not shared yet, no signal';
		return {
			words: [`${of.unshared} ${safe}`, needs].filter(Boolean).join(' · '),
			tone: 'heed',
			shape: 'phone'
		};
	}
	if (needs) return { words: needs, tone: 'heed', shape: 'speech' };
	if (of.reaching && !of.online) return { words: 'looking for what is new', tone: 'calm', shape: 'phone' };
	return of.online
		? { words: 'everything shared', tone: 'calm', shape: 'linked' }
		: { words: 'no signal; what you write is kept here', tone: 'calm', shape: 'phone' };
}
