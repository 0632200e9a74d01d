/** Quarantine of a group is set, made longer, or ended. */
import { z } from 'zod/mini';
import { dayText } from '../../dayText.ts';
import { defineKind } from '../../kind.ts';
import { said } from '../../said.ts';
import { dateOrNothing, id, longText } from '../../shapes.ts';

export const groupQuarantineSet = defineKind({
	kind: 'group/quarantineSet',
	version: 1,
	nature: 'decision',
	audience: 'club',
	decides: 'room',
	/** `until`: last day of quarantine, ISO date; '' = ended now. */
	schema: z.object({ group: id, room: z.nullable(id), until: dateOrNothing, reason: longText }),
	things: (body) => [{ type: 'group', id: body.group }],
	rooms: (body) => (body.room ? [body.room] : []),
	apply: {
		group(group, told) {
			const { until, reason } = told.body;
			group.quarantine = until ? { ...said(told), untilMs: told.endOf(until), reason } : null;
		}
	},
	sentence: (body, names) =>
		body.until
			? `${names.group(body.group)} is in quarantine until ${dayText(body.until)}.`
			: `Quarantine of ${names.group(body.group)} ended.`
});
