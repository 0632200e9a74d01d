/** Where set pieces are played: the club's lines and meetings, and fish that can be had at the moment. */
import type { Holding } from '#server/demo/scenario/fish/holding.ts';
import { type Gift, type HeldLine, giftOf } from '#server/demo/scenario/fish/gift.ts';
import type { LineKey } from '#server/demo/scenario/linePlans.ts';
import type { Meeting } from '#server/demo/scenario/meetings.ts';
import type { RoomKey } from '#server/demo/scenario/names.ts';
import type { Tank } from '#server/demo/scenario/fish/tank.ts';
import type { World } from '#server/demo/scenario/world.ts';

export class Stage {
	readonly world: World;
	readonly lines: readonly HeldLine[];
	/** The meeting before last, the last one and the next. */
	readonly meetings: readonly Meeting[];
	/** Lines and rooms used lately, so that the pieces spread over the club. */
	#used: HeldLine[] = [];

	constructor(world: World, lines: readonly HeldLine[], meetings: readonly Meeting[]) {
		this.world = world;
		this.lines = lines;
		this.meetings = meetings.slice(-3);
	}

	meeting(which: 'before last' | 'last' | 'next'): Meeting {
		const meeting = this.meetings[['before last', 'last', 'next'].indexOf(which)];
		if (!meeting) throw new RangeError(`Stage must have three meetings, got ${this.meetings.length}`);
		return meeting;
	}

	/** So many days before the end, in the evening. */
	ago(days: number, act: () => void): void {
		const evening = this.world.hour(this.world.daysAgo(days), 18);
		this.world.at(Math.min(evening, this.world.daysAgo(days - 0.9)), act);
	}

	/** Somebody who can give, and somebody of the same line who could receive; lines used least come first. */
	move(): { line: HeldLine; gift: Gift; to: Holding } {
		const lines = [...this.lines].sort((a, b) => this.#used.lastIndexOf(a) - this.#used.lastIndexOf(b));
		for (const line of lines) {
			const places = line.holdings.filter((holding) => holding.isHeard && holding.plan.room !== 'nook');
			for (const to of places.reverse()) {
				const gift = giftOf(this.world, line, to.plan.room);
				if (!gift || gift.isEggs) continue;
				this.#used.push(line);
				return { line, gift, to };
			}
		}
		throw new RangeError('move requires a line with fish to give');
	}

	holding(line: LineKey, room: RoomKey): Holding {
		const found = this.lines
			.find(({ plan }) => plan.key === line)
			?.holdings.find(({ plan }) => plan.room === room);
		if (!found) throw new RangeError(`the scenario requires ${line} in ${room}`);
		return found;
	}

	/** The room's largest group of the line. */
	tank(line: LineKey, room: RoomKey): Tank {
		const { breeders, young } = this.holding(line, room);
		const all = [breeders, ...young].filter((tank): tank is Tank => tank !== null && !tank.isOver);
		const size = ({ fish }: Tank) => fish.males + fish.females + fish.unsexed;
		const largest = all.sort((a, b) => size(b) - size(a))[0];
		if (!largest) throw new RangeError(`the scenario requires fish of ${line} in ${room}`);
		return largest;
	}
}
