/** A proposed exchange is sent to both sides. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id } from '../../shapes.ts';

export const exchangeAsked = defineKind({
	kind: 'exchange/asked',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'proposer',
	schema: z.object({ exchange: id, line: id }),
	things: (body) => [{ type: 'exchange', id: body.exchange }],
	line: (body) => body.line,
	apply: {
		exchange(exchange, told) {
			exchange.asked = said(told);
		}
	},
	sentence: () => 'Both sides were asked.'
});
