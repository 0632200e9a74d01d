/** One side answers an exchange: yes, no, or later. */
import { z } from 'zod/mini';
import { dayText } from '../../dayText.ts';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { dateOrNothing, id, longText } from '../../shapes.ts';

export const exchangeAnswered = defineKind({
	kind: 'exchange/answered',
	version: 1,
	nature: 'decision',
	audience: 'club',
	asksWhoKeeps: true,
	decides: 'side',
	schema: z.object({
		exchange: id,
		line: id,
		room: id,
		answer: z.enum(['yes', 'no', 'later']),
		/** For `later`: put off until this day. */
		until: dateOrNothing,
		reason: longText
	}),
	things: (body) => [{ type: 'exchange', id: body.exchange }],
	rooms: (body) => [body.room],
	line: (body) => body.line,
	apply: {
		exchange(exchange, told) {
			const { room, answer, until, reason } = told.body;
			const byPhone = !told.keeps(room);
			exchange.answers = exchange.answers.filter((given) => given.room !== room);
			exchange.answers.push({ ...said(told), room, answer, until, reason, byPhone });
		}
	},
	sentence(body, names) {
		const word =
			body.answer === 'later'
				? `later${body.until ? `, not before ${dayText(body.until)}` : ''}`
				: body.answer;
		return `${names.room(body.room)} says ${word}${body.reason ? `: ${body.reason}` : ''}.`;
	}
});
