/** What the demonstration must show, put in by name and at its time; each file of pieces says what it shows. */
import { playBagPieces } from './bagPieces.ts';
import { playDoubtPieces } from './doubtPieces.ts';
import { playExchangePieces } from './exchangePieces.ts';
import type { HeldLine } from '#server/demo/scenario/fish/gift.ts';
import type { Meeting } from '#server/demo/scenario/meetings.ts';
import { playRoomPieces } from './roomPieces.ts';
import { Stage } from './stage.ts';
import type { World } from '#server/demo/scenario/world.ts';

export function playSetPieces(world: World, lines: readonly HeldLine[], meetings: readonly Meeting[]): void {
	const stage = new Stage(world, lines, meetings);
	playBagPieces(stage);
	playExchangePieces(stage);
	playDoubtPieces(stage);
	playRoomPieces(stage);
}
