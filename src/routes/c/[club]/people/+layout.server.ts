import { error } from '@sveltejs/kit';
import { isOfficer, seatIn } from '#server/auth/session.ts';
import { peopleOf } from '#server/club/peopleOf.ts';
import { signedInOrSent } from '../../../ask.server.ts';

/** Who is in the club, as its members may see it; only officers can change something here. */
export const load = async (event) => {
	const seat = seatIn(signedInOrSent(event), event.params.club);
	if (!seat) error(403, 'not allowed');
	const { db, states } = event.locals.app;
	const people = await peopleOf(db, seat.club);
	const state = await states.of(seat.club);
	const named = ({ id, name }: { id: string; name: string }) => ({ id, name: name || 'without a name yet' });
	return {
		...people,
		club: seat.club,
		clubName: seat.clubName,
		me: seat.member,
		isOfficer: isOfficer(seat),
		lines: [...state.lines.values()].filter(({ known }) => known).map(named),
		meetings: [...state.meetings.values()].filter(({ known }) => known).map(named)
	};
};
