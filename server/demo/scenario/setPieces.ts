import type { Line } from './line.ts';
import type { Meeting } from './meetings.ts';
import type { World } from './world.ts';
export function playSetPieces(_world: World, _lines: readonly Line[], _meetings: readonly Meeting[]): void {}
