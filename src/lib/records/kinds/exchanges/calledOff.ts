/** An exchange is called off. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, longText } from '../../shapes.ts';

export const exchangeCalledOff = defineKind({
	kind: 'exchange/calledOff',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'proposer',
	schema: z.object({ exchange: id, line: id, reason: longText }),
	things: (body) => [{ type: 'exchange', id: body.exchange }],
	line: (body) => body.line,
	apply: {
		exchange(exchange, told) {
			exchange.calledOff = { ...said(told), reason: told.body.reason };
		}
	},
	sentence: (body) => `The exchange was called off${body.reason ? `: ${body.reason}` : ''}.`
});
