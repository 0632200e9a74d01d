/** Two regions are far apart, or an ordinary drive again: what a trip between their rooms costs in plans. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { id, shortText } from '../../shapes.ts';

export const clubDistanceSaid = defineKind({
	kind: 'club/distanceSaid',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'officer',
	/** Pair by pair, so that two officers who speak of two pairs unseen by each other are both heard. */
	schema: z.object({ club: id, one: shortText, other: shortText, far: z.boolean() }),
	things: (body) => [{ type: 'club', id: body.club }],
	apply: {
		club(club, told) {
			const [one, other] = [told.body.one, told.body.other].sort() as [string, string];
			const others = club.far.filter((pair) => pair.one !== one || pair.other !== other);
			club.far = told.body.far && one !== other ? [...others, { ...said(told), one, other }] : others;
		}
	},
	sentence: ({ one, other, far }) =>
		far
			? `${one} and ${other} are far apart for exchange plans.`
			: `From ${one} to ${other} is an ordinary drive for exchange plans.`
});
