import { drawnRooms, type OpenRooms } from '#pedigree/figures/openRooms.ts';
import {
	strategiesAhead,
	type StrategiesAhead,
	type StrategiesAsked
} from '#planning/ahead/strategiesAhead.ts';

/** So many ways in which what is open may have been; futures take them in turn. */
const draws = 32;

/** Futures ahead: several ways of swapping beside each other, with what the record leaves open about the fish of now. */
export function futuresAhead(
	{ open, ...asked }: StrategiesAsked & { readonly open: OpenRooms | null },
	tell: (progress: { readonly done: number; readonly of: number; readonly soFar?: StrategiesAhead }) => void
): StrategiesAhead {
	const drawn = open ? drawnRooms(open, draws, asked.seed) : [];
	return strategiesAhead({ ...asked, line: { ...asked.line, drawn } }, tell);
}
