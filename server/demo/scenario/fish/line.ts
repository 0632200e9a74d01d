/** A line of the demo club while its story runs. */
import type { ThingId } from '#records/entry.ts';
import type { FishLife } from './fishLife.ts';
import type { LinePlan } from '#server/demo/scenario/linePlans.ts';

export interface Line {
	readonly id: ThingId;
	readonly plan: LinePlan;
	readonly life: FishLife;
}
