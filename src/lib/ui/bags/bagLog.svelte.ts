/** The logging of one bag: number, receiver, and whatever else is known. Nothing typed is lost between the steps. */
import type { Draft, ThingId } from '#records/entry.ts';
import type { BagContent, BagTo, Fish } from '#records/state.ts';
import { howManyFish, noFish } from '#records/fishCount.ts';
import { newThing } from '#ui/groups/newThing.ts';
import { bagged, handedOver } from './bagDrafts.ts';

export type LogStep = 'number' | 'who' | 'what';

/** What is known of an agreed exchange with the receiver. */
export interface Agreed {
	readonly exchange: ThingId | null;
	readonly line: ThingId | null;
	readonly promised: readonly { readonly group: ThingId | null; readonly fish: Fish }[];
}

export class BagLog {
	step = $state<LogStep>('number');
	typed = $state('');
	/** As records keep it; '' = no label. */
	number = $state('');
	/** The number was given out by this device just now and must be written on the bag. */
	isNew = $state(false);
	to = $state.raw<BagTo | null>(null);
	toName = $state('');
	/** undefined = not picked: the member's own room, or nobody's if the bag is for them. */
	fromRoom = $state<ThingId | null | undefined>(undefined);
	line = $state<ThingId | null>(null);
	/** By group; '' = fish of a group not said. */
	contents = $state<{ group: ThingId | null; fish: Fish }[]>([]);
	exchange = $state<ThingId | null>(null);
	note = $state('');
	readonly #bag = newThing();

	takeNumber(number: string, isNew: boolean): void {
		this.number = number;
		this.isNew = isNew;
		this.step = 'who';
	}

	/** @param agreed the exchange that the bag is for, with what was promised: most likely that is what is in it */
	pickRoom(room: ThingId, name: string, agreed: Agreed | null = null): void {
		this.to = { to: 'room', room };
		this.toName = name;
		this.exchange = agreed?.exchange ?? null;
		if (agreed?.line && !this.line) this.line = agreed.line;
		if (agreed?.exchange && this.contents.length === 0)
			this.contents = agreed.promised.map((one) => ({ ...one }));
		this.step = 'what';
	}

	pickOther(to: BagTo, name: string): void {
		this.to = to;
		this.toName = name;
		this.exchange = null;
		this.step = 'what';
	}

	back(): void {
		this.step = this.step === 'what' ? 'who' : 'number';
	}

	/** The room that the bag is from, as it will be written. */
	giver(myRooms: readonly { readonly id: ThingId }[]): ThingId | null {
		if (this.fromRoom !== undefined) return this.fromRoom;
		const forMe =
			this.to?.to === 'room' && myRooms.some((room) => room.id === (this.to as { room: ThingId }).room);
		return forMe ? null : (myRooms[0]?.id ?? null);
	}

	setFish(group: ThingId | null, fish: Fish): void {
		const others = this.contents.filter((content) => content.group !== group);
		this.contents = howManyFish(fish) > 0 ? [...others, { group, fish }] : others;
	}
	fishOf(group: ThingId | null): Fish {
		return this.contents.find((content) => content.group === group)?.fish ?? noFish;
	}

	/**
	 * What is written.
	 *
	 * @param already a bag that this device knows under this number: the same bag is spoken of
	 */
	drafts(
		of: {
			readonly myRooms: readonly { readonly id: ThingId }[];
			readonly meeting: ThingId | null;
			readonly already: ThingId | null;
		},
		handed: boolean,
		happened: string
	): { readonly bag: ThingId; readonly drafts: readonly Draft[] } {
		const bag = of.already ?? this.#bag;
		const fromRoom = this.giver(of.myRooms);
		const toRoom = this.to?.to === 'room' ? this.to.room : null;
		const { number, line, to, exchange, note } = this;
		const contents: BagContent[] = $state.snapshot(this.contents);
		const first = bagged(
			{ bag, number, line, contents, fromRoom, to, meeting: of.meeting, exchange, note },
			happened
		);
		return {
			bag,
			drafts: handed ? [first, handedOver(bag, happened, fromRoom, toRoom, of.meeting)] : [first]
		};
	}
}
