import type { PlanRow } from '#season/plansList.ts';

const words = [
	['agreed', 'agreed'],
	['done', 'done'],
	['declined', 'declined'],
	['asked', 'asked'],
	['planned', 'not sent'],
	['over', 'called off or lapsed']
] as const;

/**
 * How far is a plan, in one line?
 *
 * @example
 * planSteps({ bags: 6, steps: { agreed: 3, declined: 1, asked: 2, planned: 0, done: 0, over: 0 } })
 * // => '6 bags: 3 agreed, 1 declined, 2 asked'
 */
export function planSteps({ bags, steps }: Pick<PlanRow, 'bags' | 'steps'>): string {
	const parts = words.filter(([step]) => steps[step] > 0).map(([step, word]) => `${steps[step]} ${word}`);
	return `${bags} ${bags === 1 ? 'bag' : 'bags'}: ${parts.join(', ')}`;
}
