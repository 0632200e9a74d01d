/** Ready for the hall: what this device has for a day without signal, or what is missing and what to do. */
import { momentWords } from './dateWords.ts';

export interface HallFacts {
	/** The page came by https or from this machine itself. */
	readonly secure: boolean;
	/** The app's files are kept and a service worker answers for them. */
	readonly appKept: boolean;
	/** When the record was last known to be the club's, ms since 1970; null = never. */
	readonly recordAt: number | null;
	/** Bag numbers kept for this device; null = not known. */
	readonly bagNumbers: number | null;
	/** The browser has promised to keep the data; null = it does not say. */
	readonly persisted: boolean | null;
	/** What the browser grants, in bytes; null = it does not say. */
	readonly quotaBytes: number | null;
	/** Opened from the home screen. */
	readonly homeScreen: boolean;
	readonly evicted: boolean;
	readonly signedOut: boolean;
	readonly unshared: number;
}

export interface HallPoint {
	readonly id: string;
	readonly ok: boolean;
	/** Without it the hall does not work; the others are warnings. */
	readonly needed: boolean;
	/** Only good to know. */
	readonly note?: boolean;
	readonly words: string;
	readonly next: string;
}

export interface HallAnswer {
	readonly ready: boolean;
	readonly sentence: string;
	readonly points: readonly HallPoint[];
}

const dayMs = 86_400_000;
/** A record older than this lacks too much of what was agreed lately (own choice). */
const freshMs = 3 * dayMs;
/** A long meeting moves some forty bags (common practice, no source). */
const numbersWanted = 40;
/** Browsers grant a private window far less than this, a usual one far more (own observation, not a rule). */
const smallQuotaBytes = 120 * 1024 * 1024;

/**
 * Can this device go to a hall without signal?
 *
 * @returns one sentence for the top of the page, and each point with what to do about it
 */
export function readyForHall(facts: HallFacts, now: Date): HallAnswer {
	const points = [...neededPoints(facts, now), ...warnings(facts)];
	const missing = points.filter((point) => point.needed && !point.ok);
	const ready = missing.length === 0;
	const has = [
		facts.appKept ? 'app' : '',
		facts.recordAt !== null ? `club record of ${momentWords(new Date(facts.recordAt), now)}` : '',
		facts.bagNumbers ? `${facts.bagNumbers} bag numbers` : ''
	].filter(Boolean);
	const hasWords = has.length
		? `This device has: ${has.join(', ')}.`
		: 'This device has nothing of the club yet.';
	return { ready, sentence: ready ? hasWords : `${missing[0]?.words} ${missing[0]?.next}`, points };
}

function neededPoints(facts: HallFacts, now: Date): HallPoint[] {
	const needed = (id: string, ok: boolean, words: string, next: string): HallPoint => ({
		id,
		ok,
		needed: true,
		words,
		next: ok ? '' : next
	});
	const old = facts.recordAt === null || now.getTime() - facts.recordAt > freshMs;
	return [
		needed(
			'secure',
			facts.secure,
			facts.secure ? 'The address is safe to keep an app from.' : 'This address does not begin with https.',
			'Phones keep no app from such an address, so it will not open without a signal. Ask whoever runs the server for an https address.'
		),
		needed(
			'app',
			facts.appKept,
			facts.appKept ? 'The app is kept on this device.' : 'The app is not kept on this device yet.',
			'Leave this page open for a minute with a signal, then open it again.'
		),
		needed(
			'record',
			!old,
			facts.recordAt === null
				? 'The club’s record is not on this device yet.'
				: `The club’s record here is of ${momentWords(new Date(facts.recordAt), now)}.`,
			'Open this page where there is a signal and wait for “everything shared”.'
		),
		needed(
			'numbers',
			facts.bagNumbers !== null && facts.bagNumbers >= numbersWanted,
			facts.bagNumbers
				? `${facts.bagNumbers} bag numbers are kept here.`
				: 'No bag numbers are kept here yet.',
			`Open this page with a signal: it fetches more by itself. ${numbersWanted} are enough for a long evening.`
		)
	];
}

function warnings(facts: HallFacts): HallPoint[] {
	const warned: HallPoint[] = [];
	const warn = (id: string, ok: boolean, words: string, next: string) =>
		warned.push({ id, ok, needed: false, words, next });
	if (facts.evicted) {
		warn(
			'evicted',
			false,
			'The browser threw away what was kept here before.',
			'Ask it to keep the data, below.'
		);
	}
	if (facts.persisted === true) warn('persisted', true, 'The browser has promised to keep the data.', '');
	else {
		warn(
			'persisted',
			false,
			'The browser may throw the data away when the device is short of room.',
			'Ask it to keep the data. Adding the app to the home screen often helps.'
		);
	}
	if (facts.quotaBytes !== null && facts.quotaBytes < smallQuotaBytes) {
		warn(
			'private',
			false,
			'The browser gives very little room here; it may be a private window.',
			'A private window forgets everything when it is closed. Use a usual window.'
		);
	}
	warned.push({
		id: 'home',
		ok: true,
		needed: false,
		note: true,
		words: facts.homeScreen ? 'This is the home-screen app.' : 'This is a browser window.',
		next: facts.homeScreen
			? 'Its store is its own: what was written in the browser window is not here, and the other way round.'
			: 'The app on the home screen has a store of its own. If you use that one at the meeting, look at this page there.'
	});
	if (facts.signedOut)
		warn('signed-out', false, 'You are signed out here.', 'Sign in before you go, so that it can share.');
	if (facts.unshared > 0) {
		warn(
			'unshared',
			false,
			`${facts.unshared} not shared yet.`,
			'They are kept here and shared when there is a signal.'
		);
	}
	return warned;
}
