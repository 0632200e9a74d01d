/** Whether a thing was really told of, or only mentioned; and what follows from its own entries alone. */
import { defaultRules } from './blank.ts';
import type { ThingType, ThingTypes } from './kind.ts';

export const finishThing: { readonly [T in ThingType]: (thing: ThingTypes[T]) => void } = {
	club: (club) => (club.known = club.opened !== null),
	member: (member) => (member.known = member.joined !== null),
	room: (room) => (room.known = room.name !== ''),
	line(line) {
		line.known = line.opened !== null;
		if (!line.rulesSaid) line.rules = defaultRules(line.fishGroup === 'annual killifish');
	},
	group: (group) => (group.known = group.started !== null),
	spawn: (spawn) => (spawn.known = spawn.seen !== null),
	bag: (bag) => (bag.known = bag.statements.length > 0),
	exchange: (exchange) => (exchange.known = exchange.proposed !== null),
	meeting: (meeting) => (meeting.known = meeting.planned !== null)
};
