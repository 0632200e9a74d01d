import { describe, expect, it } from 'vitest';
import { readyForHall, type HallFacts } from '#ui/shared/readyForHall.ts';

const now = new Date(2026, 10, 25, 19, 30);
const allWell: HallFacts = {
	secure: true,
	appKept: true,
	recordAt: new Date(2026, 10, 25, 19, 2).getTime(),
	bagNumbers: 100,
	persisted: true,
	quotaBytes: 2 ** 31,
	homeScreen: true,
	evicted: false,
	signedOut: false,
	unshared: 0
};

describe('ready for the hall', () => {
	it('says what the device has', () => {
		const { ready, sentence } = readyForHall(allWell, now);
		expect(ready).toBe(true);
		expect(sentence).toBe('This device has: app, club record of today 19:02, 100 bag numbers.');
	});

	it.each([
		['secure', { secure: false }, 'https'],
		['app', { appKept: false }, 'not kept'],
		['record', { recordAt: null }, 'not on this device'],
		['record', { recordAt: now.getTime() - 4 * 86_400_000 }, '21 November'],
		['numbers', { bagNumbers: null }, 'No bag numbers'],
		['numbers', { bagNumbers: 12 }, '12 bag numbers']
	])('is not ready when %s is missing, and says what to do', (id, change, words) => {
		const { ready, sentence, points } = readyForHall({ ...allWell, ...change }, now);
		expect(ready).toBe(false);
		expect(sentence).toContain(words);
		const point = points.find((each) => each.id === id);
		expect(point).toMatchObject({ ok: false, needed: true });
		expect(point?.next).not.toBe('');
	});

	it.each([
		['persisted', { persisted: null }],
		['persisted', { persisted: false }],
		['private', { quotaBytes: 50 * 1024 * 1024 }],
		['evicted', { evicted: true }],
		['signed-out', { signedOut: true }],
		['unshared', { unshared: 3 }]
	])('warns of %s without calling it not ready', (id, change) => {
		const { ready, points } = readyForHall({ ...allWell, ...change }, now);
		expect(ready).toBe(true);
		expect(points.find((each) => each.id === id)).toMatchObject({ ok: false, needed: false });
	});

	it('says that the home-screen app has a store of its own, in both places', () => {
		for (const homeScreen of [true, false]) {
			const home = readyForHall({ ...allWell, homeScreen }, now).points.find(({ id }) => id === 'home');
			expect(home?.next).toMatch(/store (is its|of its) own/);
		}
	});
});
