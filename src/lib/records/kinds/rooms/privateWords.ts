/** Words for those who keep a room: why fish were culled, worries. Others never see them, and they change nothing. */
import { z } from 'zod/mini';
import { defineKind } from '../../kind.ts';
import { id, longText } from '../../shapes.ts';

export const privateWords = defineKind({
	kind: 'room/privateWords',
	version: 1,
	nature: 'private',
	audience: 'room',
	/** `explains`: an entry of the club's ledger; `group`: the group spoken of. Both may be null. */
	schema: z.object({ room: id, text: longText, explains: z.nullable(id), group: z.nullable(id) }),
	things: () => [],
	apply: {},
	sentence: (body) => body.text
});
