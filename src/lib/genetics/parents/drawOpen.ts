import type { FoundersEvent, GroupEvent } from '../groups/event.ts';
import { openEvents } from './openEvents.ts';

/**
 * Draw open: one way in which everything that is not settled may have been.
 *
 * Of every open event one of its ways is drawn by its weight, each by itself. Founders whose kinship is a guess get
 * one between unrelated and the greatest that it could be, all as likely; their kinship with others shrinks alike.
 * Source: own; ways and weights as in `openEvents`, the guess drawn evenly is our own choice.
 * Cost: O(ways).
 *
 * @param events as for `groupKinship`; not changed
 * @param random numbers from 0 to 1, for example of `randomFrom`
 * @returns events for `groupKinship`, as many as before, with the same units
 * @example
 * drawOpen([{ kind: 'founders', unit: 'a', count: 2, within: 0.2, assumed: true }], () => 0.5)[0].within // => 0.1
 */
export function drawOpen(events: readonly GroupEvent[], random: () => number): GroupEvent[] {
	const drawn = [...events];
	for (const { place, ways } of openEvents(events)) {
		let left = random() * ways.reduce((sum, { weight }) => sum + weight, 0);
		drawn[place] = (ways.find(({ weight }) => (left -= weight) < 0) ?? ways.at(-1)!).event;
	}
	return drawn.map((event) => (event.kind === 'founders' && event.assumed ? founders(event, random) : event));
}

function founders(event: FoundersEvent, random: () => number): FoundersEvent {
	const { within = 0, related = [], atMost = within, ...rest } = event;
	const share = random();
	return {
		...rest,
		assumed: false,
		within: share * Math.max(within, atMost),
		related: related.map((one) => ({ ...one, kinship: share * one.kinship }))
	};
}
