/**
 * A bag: its number, what is in it, from where, to whom. Number and receiver are enough; the rest can follow in a
 * second entry of this kind about the same bag: each says what its writer knew, empty fields say nothing.
 */
import { z } from 'zod/mini';
import { bagNumberText } from '../../bagNumberText.ts';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { fishText, noFish, addFish } from '../../fishCount.ts';
import type { Told } from '../../kind.ts';
import { bagContents, bagNumber, bagTo, id, longText } from '../../shapes.ts';
import type { Bag } from '../../state.ts';

const body = z.object({
	bag: id,
	number: bagNumber,
	line: z.nullable(id),
	contents: bagContents,
	fromRoom: z.nullable(id),
	/** null = not said. */
	to: z.nullable(bagTo),
	meeting: z.nullable(id),
	exchange: z.nullable(id),
	note: longText
});
type Body = z.infer<typeof body>;

export const bagBagged = defineKind({
	kind: 'bag/bagged',
	version: 1,
	nature: 'fact',
	audience: 'club',
	asksWhoKeeps: true,
	schema: body,
	things: (body) => [
		{ type: 'bag', id: body.bag },
		...body.contents.flatMap((content) =>
			content.group ? [{ type: 'group' as const, id: content.group }] : []
		),
		...(body.exchange ? [{ type: 'exchange' as const, id: body.exchange }] : []),
		...(body.meeting ? [{ type: 'meeting' as const, id: body.meeting }] : [])
	],
	places: (body) => [
		...(body.fromRoom ? [[body.bag, body.fromRoom] as const] : []),
		...(body.to?.to === 'room' ? [[body.bag, body.to.room] as const] : [])
	],
	line: (body) => body.line,
	meeting: (body) => body.meeting,
	apply: {
		bag: tellBag,
		group(group, told) {
			if (!group.bags.includes(told.body.bag)) group.bags.push(told.body.bag);
		},
		exchange(exchange, told) {
			if (!exchange.bags.includes(told.body.bag)) exchange.bags.push(told.body.bag);
		},
		meeting(meeting, told) {
			if (!meeting.bags.includes(told.body.bag)) meeting.bags.push(told.body.bag);
		}
	},
	sentence(body, names) {
		const fish = body.contents.reduce((sum, content) => addFish(sum, content.fish), noFish);
		const what = [
			fishText(fish) === '0' ? 'fish' : fishText(fish),
			body.line ? `of ${names.line(body.line)}` : ''
		]
			.filter(Boolean)
			.join(' ');
		const from = body.fromRoom ? ` from ${names.room(body.fromRoom)}` : '';
		const to =
			body.to?.to === 'room'
				? ` for ${names.room(body.to.room)}`
				: body.to && 'name' in body.to
					? ` for ${body.to.name}`
					: '';
		return `${body.number ? `Bag ${bagNumberText(body.number)}` : 'A bag'}: ${what}${from}${to}.`;
	}
});

/** A statement of what is in a bag, with the side it comes from. */
function tellBag(bag: Bag, told: Told<Body>): void {
	const { number, line, contents, fromRoom, to, note, meeting, exchange } = told.body;
	const receiver = to?.to === 'room' && told.keeps(to.room);
	const side = fromRoom && told.keeps(fromRoom) ? 'giver' : receiver ? 'receiver' : 'other';
	bag.statements.push({
		...said(told),
		bag: told.body.bag,
		side,
		number,
		line,
		contents,
		fromRoom,
		to,
		note
	});
	if (meeting) bag.meeting = meeting;
	if (exchange) bag.exchange = exchange;
}
