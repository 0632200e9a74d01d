import type { ExchangeWord } from '#club/exchanges/exchangeStage.ts';

/** How far a bag of a plan is, in few words; `over` = called off, lapsed or failed. */
export type PlanStep = 'planned' | 'asked' | 'agreed' | 'declined' | 'done' | 'over';

export function planStep(word: ExchangeWord): PlanStep {
	switch (word) {
		case 'proposed':
			return 'planned';
		case 'asked':
		case 'put off':
			return 'asked';
		case 'agreed':
		case 'bagged':
		case 'handed over':
			return 'agreed';
		case 'declined':
			return 'declined';
		case 'arrived':
		case 'settled':
		case 'settled, no report':
			return 'done';
		default:
			return 'over';
	}
}
