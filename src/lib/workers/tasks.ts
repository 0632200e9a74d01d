/**
 * Long work that a page starts by hand or that takes more than a moment: pure functions of plain data, run in a worker
 * of their own, so that the club's record goes on and the work can be stopped. Adding one: a line in this list.
 */

import { aheadByChance } from '#pedigree/figures/aheadByChance.ts';
import { genesByChance } from '#pedigree/figures/genesByChance.ts';
import { futuresAhead } from '#season/ahead/futuresAhead.ts';
import { planB } from './planB.ts';
import { planSeason } from './planSeason.ts';
import type { Progress } from './progress.ts';

export type Tell = (progress: Progress) => void;
export type Task = (args: never, tell: Tell) => unknown;

export const tasks = { aheadByChance, futuresAhead, genesByChance, planB, planSeason } satisfies Record<
	string,
	Task
>;

export type Tasks = typeof tasks;
export type TaskName = keyof Tasks & string;
export type TaskArgs<Name extends TaskName> = Tasks[Name] extends (args: infer Args, tell: Tell) => unknown
	? Args
	: never;
export type TaskAnswer<Name extends TaskName> = Tasks[Name] extends (args: never, tell: Tell) => infer Answer
	? Awaited<Answer>
	: never;
