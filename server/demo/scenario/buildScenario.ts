/** Builds the demo club: three years of an invented club, the same for the same seed and the same end. */
import { askAround, nameRunners, openClub, openLines } from './clubLife.ts';
import { meetingDays, planMeetings } from './meetings.ts';
import { club } from './names.ts';
import type { Scenario } from './scenario.ts';
import { playSetPieces } from '#server/demo/scenario/pieces/setPieces.ts';
import { World } from './world.ts';

/**
 * Demo scenario: what would three years of a club's record look like?
 *
 * People, rooms, lines and the fates of holdings are planned (names.ts); spawns, losses, counts, bags and answers
 * follow from the seed; what the demonstration must show is put in by name (setPieces.ts). Everything is written at
 * its own time by somebody who could have written it.
 *
 * @param now the end of the scenario; its last entries lie some hours before
 */
export function buildScenario({ seed, now }: { readonly seed: number; readonly now: Date }): Scenario {
	const world = new World(seed, now.getTime());
	openClub(world);
	const { lines, starting } = openLines(world);
	const meetings = meetingDays(world);
	nameRunners(world, meetings);
	planMeetings(world, meetings, lines, starting);
	askAround(world, lines);
	playSetPieces(world, lines, meetings);
	world.run();
	return {
		club: { id: world.clubId, ...club },
		now: world.now,
		members: world.members,
		rooms: world.rooms,
		facts: world.facts,
		entries: world.entries,
		numberBlocks: world.numberBlocks,
		shown: ['maud', 'ines', 'fenn']
	};
}
