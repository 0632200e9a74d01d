import { defaultRules } from '#records/blank.ts';
import type { Line, LineRules } from '#records/state.ts';

/** The rules of a line: its own once somebody set them, else the defaults of its group of fish. */
export function rulesOf(line: Line): LineRules {
	return line.rulesSaid ? line.rules : defaultRules(line.fishGroup === 'annual killifish');
}
