/** An exchange is proposed: which fish should move to which room, and why. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { fishText, addFish, noFish } from '../../fishCount.ts';
import { fish, id, longText, shortText } from '../../shapes.ts';

const tenThousandths = z.int().check(z.gte(0), z.lte(10_000));

export const exchangeProposed = defineKind({
	kind: 'exchange/proposed',
	version: 3,
	nature: 'decision',
	audience: 'club',
	decides: 'proposer',
	schema: z.object({
		exchange: id,
		line: id,
		gives: z
			.array(z.object({ fromRoom: id, group: z.nullable(id), fish }))
			.check(z.minLength(1), z.maxLength(10)),
		toRoom: id,
		meeting: z.nullable(id),
		note: longText,
		reason: longText,
		/** True = sent to both sides at once. */
		asked: z.boolean(),
		/** To be crossed on purpose with fish of this line in the receiver's room; null = they stay with their own. */
		outcross: z.nullable(id),
		/** The plan that it is a part of: exchanges with one id were planned together. */
		plan: z.nullable(
			z.object({
				id,
				name: shortText,
				/** Inbreeding of the receiver's next brood without and with the plan, in ten-thousandths. */
				expects: z.nullable(z.object({ before: z.nullable(tenThousandths), after: tenThousandths }))
			})
		)
	}),
	upgrades: [
		{ name: 'addPlan', to: 2, up: (body) => ({ plan: null, ...(body as object) }) },
		{ name: 'addOutcross', to: 3, up: (body) => ({ outcross: null, ...(body as object) }) }
	],
	things: (body) => [
		{ type: 'exchange', id: body.exchange },
		...(body.meeting ? [{ type: 'meeting' as const, id: body.meeting }] : [])
	],
	places: (body) => [
		[body.exchange, body.toRoom],
		...body.gives.map((give) => [body.exchange, give.fromRoom] as const)
	],
	line: (body) => body.line,
	apply: {
		exchange(exchange, told) {
			const { line, gives, toRoom, meeting, note, reason, asked, plan, outcross } = told.body;
			Object.assign(exchange, { line, gives, toRoom, meeting, note, reason, plan, outcross });
			exchange.proposed = said(told);
			if (asked) exchange.asked = said(told);
		}
	},
	sentence(body, names) {
		const fish = body.gives.reduce((sum, give) => addFish(sum, give.fish), noFish);
		const from = [...new Set(body.gives.map((give) => names.room(give.fromRoom)))].join(' and ');
		return `Proposed: ${fishText(fish)} of ${names.line(body.line)} from ${from} to ${names.room(body.toRoom)}${body.outcross ? `, to cross on purpose with ${names.line(body.outcross)}` : ''}.`;
	}
});
