/** Who opens the club here, and the way to it. */
import { knownPeople, rememberPerson, type KnownPerson } from '#sync/people.ts';
import { open, type ClubClient } from '#workers/clubClient.ts';
import { hasTypedText } from '#ui/shared/hasTypedText.ts';
import type { Me } from '#protocol/api.ts';

/** With a person known on this device, nobody waits longer than this for the server's word on who it is. */
const patienceMs = 1_500;

type Seat = Omit<KnownPerson, 'lastUsed'>;
/** `unreachable`: no signal, or no server. */
type Heard = { readonly seats: readonly Seat[] } | 'nobody' | 'unreachable';

/**
 * Opens the club on this device: as the member who is signed in; without a signal as the one who used it last.
 *
 * @returns the client once what is on this device is loaded; `sign-in` when nobody is known here
 */
export async function openClub(club: string): Promise<ClubClient | 'sign-in'> {
	const known = (await knownPeople().catch(() => [])).find((person) => person.club === club);
	const asked = askWho();
	const heard = known ? await Promise.race([asked, later(patienceMs)]) : await asked;
	const seat = typeof heard === 'object' ? heard.seats.find((each) => each.club === club) : undefined;
	const person = seat ?? known;
	if (!person) return 'sign-in';
	if (seat) await remember(seat);
	else void asked.then((late) => correct(late, person));
	const { member, device } = person;
	const client = open({ club, member, device, serverUrl: location.origin });
	await client.opened;
	return client;
}

async function askWho(): Promise<Heard> {
	try {
		const answer = await fetch('/api/me', { headers: { accept: 'application/json' } });
		if (answer.status === 401) return 'nobody';
		if (!answer.ok) return 'unreachable';
		return { seats: ((await answer.json()) as Me).clubs };
	} catch {
		return 'unreachable';
	}
}

/** The server's word came after the patience ended: another member must not go on writing as this one. */
async function correct(late: Heard, person: Seat): Promise<void> {
	if (typeof late !== 'object') return;
	const seat = late.seats.find((each) => each.club === person.club);
	if (!seat) return;
	await remember(seat);
	const other = seat.member !== person.member || seat.device !== person.device;
	if (other && !hasTypedText(document)) location.reload();
}

async function remember({ club, clubName, member, name, device }: Seat): Promise<void> {
	// A browser that keeps nothing still opens the club while there is a signal.
	await rememberPerson({ club, clubName, member, name, device, lastUsed: Date.now() }).catch(() => undefined);
}

function later(ms: number): Promise<Heard> {
	return new Promise((resolve) => setTimeout(() => resolve('unreachable'), ms));
}
