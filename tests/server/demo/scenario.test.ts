/**
 * The demo club, built from a seed, loaded into a real ledger and folded as a device folds it. What must be in it is
 * the list of the demonstration; figures beside a check are that list's.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { linesOverview } from '#club/lines/linesOverview.ts';
import { bagNumberOf } from '#handover/bagNumberOf.ts';
import type { Fold } from '#records/fold.ts';
import { happened } from '#records/happened.ts';
import { idTime } from '#records/rank.ts';
import type { Bag, Group } from '#records/state.ts';
import { foldOf, inputsOf, loadedScenario, type LoadedScenario } from './loadedScenario.ts';

const dayMs = 86_400_000;
const loadWithinMs = 60_000;
const ends = [
	{ seed: 1, end: '2026-11-25T12:00:00Z' },
	{ seed: 5, end: '2028-02-29T23:30:00Z' }
];

describe.each(ends)('the demo club of seed $seed up to $end', ({ seed, end }) => {
	const now = new Date(end);
	let loaded: LoadedScenario;
	let fold: Fold;
	let groups: Group[];
	let bags: Bag[];

	beforeAll(async () => {
		loaded = await loadedScenario(seed, now);
		fold = await foldOf(loaded);
		groups = [...new Set(fold.state.groups.values())];
		bags = [...new Set(fold.state.bags.values())];
	}, loadWithinMs);
	afterAll(() => loaded.close());

	const ofKind = (kind: string) =>
		loaded.scenario.entries.filter(({ entry }) => entry.kind === kind).map(({ entry }) => entry);
	const verdicts = (name: string) => [...fold.ids()].filter((id) => fold.view(id)?.verdict.name === name);
	const roomNamed = (key: string) => loaded.scenario.rooms.find((room) => room.key === key)?.id ?? '';
	const memberNamed = (key: string) => loaded.scenario.members.find((member) => member.key === key)?.id ?? '';

	test('every entry is taken and understood, and its writing and happening lie in the three years', () => {
		expect(loaded.written).toBe(loaded.scenario.entries.length);
		expect(loaded.events).toEqual([]);
		expect(fold.unreadable).toBe(0);
		expect(verdicts('not understood')).toEqual([]);
		const start = new Date(now);
		start.setUTCFullYear(start.getUTCFullYear() - 3);
		for (const { entry } of loaded.scenario.entries) {
			const written = idTime(entry.id) ?? 0;
			expect(written).toBeGreaterThanOrEqual(start.getTime());
			expect(written).toBeLessThan(now.getTime());
			expect(happened(entry.happened, 'Europe/London')?.first, entry.happened).toBeLessThanOrEqual(written);
		}
		expect(new Set(loaded.scenario.entries.map(({ entry }) => entry.id)).size).toBe(loaded.written);
	});

	test('acceptance follows writing, and the turn of each year closed a volume', async () => {
		const ids = [...fold.ids()];
		for (const id of ids) expect(fold.view(id)?.clockWrong, fold.entry(id)?.kind).toBe(false);
		const manifest = await loaded.ledger.manifest(loaded.scenario.club.id, ['club']);
		expect(manifest.audiences[0]?.volumes.length).toBe(3);
		const decisions = ids.filter((id) =>
			['exchange/answered', 'club/roleGiven'].includes(fold.entry(id)?.kind ?? '')
		);
		for (const id of decisions)
			expect(fold.view(id)?.acceptedAt ?? 0).toBeGreaterThanOrEqual(idTime(id) ?? Infinity);
	});

	test('at least 10 rooms, two in one house, one kept by a couple, and 7 lines of 5 kinds of fish', () => {
		const rooms = [...fold.state.rooms.values()];
		expect(rooms.length).toBeGreaterThanOrEqual(10);
		expect(rooms.filter((room) => room.house === 'Lantern House').length).toBe(2);
		expect(fold.state.rooms.get(roomNamed('mill'))?.keepers.sort()).toEqual(
			[memberNamed('ines'), memberNamed('piet')].sort()
		);
		const lines = [...fold.state.lines.values()];
		expect(lines.length).toBeGreaterThanOrEqual(7);
		expect(new Set(lines.map((line) => line.fishGroup)).size).toBeGreaterThanOrEqual(5);
		expect(
			lines.filter((line) => line.kind === 'conservation' && line.localityVerbatim !== '').length
		).toBeGreaterThanOrEqual(4);
		expect(fold.size).toBeGreaterThanOrEqual(1_500);
	});

	test('one line is down to its last room; others are safe, watched, at risk, not asked yet, retired', () => {
		const { rows } = linesOverview(fold.state, {}, { now: now.getTime(), me: '', fold });
		expect(rows.filter((row) => row.state.word === 'last room').map((row) => row.code)).toEqual(['PIEDRA-2']);
		const words = new Set(rows.map((row) => row.state.word));
		for (const word of ['safe', 'watch', 'at risk', 'not asked yet', 'retired'] as const)
			expect(words).toContain(word);
		const lastRoom = rows.find((row) => row.code === 'PIEDRA-2');
		expect(Math.min(lastRoom?.fish.males ?? 0, lastRoom?.fish.females ?? 0)).toBeGreaterThanOrEqual(1);
		// Silence ages: some rooms have told nothing for half a year and longer.
		expect(
			rows.filter((row) => row.state.unconfirmed > 0 && row.state.confirmed > 0).length
		).toBeGreaterThanOrEqual(3);
	});

	test('numbers hang together: no group gives more than was counted, hardly any order is unclear', () => {
		expect(groups.filter((group) => group.now.belowZero).map((group) => group.id)).toEqual([]);
		expect(groups.filter((group) => group.now.orderNotClear.length > 0).length).toBeLessThanOrEqual(
			groups.length / 50
		);
		expect(groups.filter((group) => !group.started).map((group) => group.id)).toEqual([]);
		const chains = groups.filter((group) => group.origin.from === 'bag' && group.now.base);
		expect(chains.length).toBeGreaterThanOrEqual(30);
	});

	test('one disputed bag: two statements that differ, and a dispute that nobody has decided', () => {
		const disputed = bags.filter((bag) => bag.disputes.some((dispute) => dispute.decided === null));
		expect(disputed.length).toBe(1);
		expect(disputed[0]?.statements.length).toBe(2);
		expect(disputed[0]?.statements.map((one) => one.side)).toEqual(['giver', 'receiver']);
		expect(disputed[0]?.differences.length).toBeGreaterThanOrEqual(1);
		expect(
			groups.flatMap((group) => group.disputes).filter((dispute) => dispute.decided?.stands).length
		).toBe(1);
	});

	test('one bag logged on two devices is one, with a difference; two with one number that cannot be one stay two', () => {
		const joined = bags.filter((bag) => bag.ids.length > 1);
		expect(joined.length).toBe(1);
		expect(joined[0]?.differences.length).toBeGreaterThanOrEqual(1);
		const devices = joined[0]?.statements.map(({ entry }) => fold.entry(entry)?.device) ?? [];
		expect(new Set(devices).size).toBe(2);
		const clashing = bags.filter((bag) => bag.numberClash.length > 0);
		expect(clashing.length).toBe(2);
		expect(new Set(clashing.map((bag) => bag.number)).size).toBe(1);
		expect(ofKind('bag/parted').length).toBe(1);
	});

	test('bag numbers carry their check letter, and come from blocks that no device is given again', async () => {
		const numbers = bags.map((bag) => bag.number).filter(Boolean);
		expect(bags.filter((bag) => bag.known && bag.number === '').length).toBe(1);
		const blocks = await loaded.db.selectFrom('numberBlock').selectAll().execute();
		for (const number of numbers) {
			const count = Number(number.slice(0, -1));
			expect(number).toBe(bagNumberOf(count));
			expect(blocks.some(({ first, last }) => count >= first && count <= last)).toBe(true);
		}
	});

	test('one suspected mix, two closed tanks, one member who left with no room', () => {
		expect(groups.filter((group) => group.mixes.length > 0).length).toBe(1);
		expect([...fold.state.lines.values()].filter((line) => line.mixes.length > 0).length).toBe(1);
		expect(groups.filter((group) => group.closed).length).toBe(2);
		const left = [...fold.state.members.values()].filter((member) => member.left);
		expect(left.map((member) => [member.name, member.rooms])).toEqual([['former member 1', []]]);
		expect(fold.state.rooms.get(roomNamed('signal'))?.keepers).toEqual([]);
	});

	test('fathers are uncertain everywhere, and stored sperm shows: fathers in tanks the mother has left', () => {
		const spawns = [...fold.state.spawns.values()];
		expect(spawns.length).toBeGreaterThanOrEqual(100);
		const uncertain = spawns.filter(
			({ fathers }) => !(fathers.of.length === 1 && fathers.of[0]?.standing === 'seen' && !fathers.others)
		);
		expect(uncertain.length / spawns.length).toBeGreaterThan(0.75);
		const standings = new Set(spawns.flatMap(({ fathers }) => fathers.of.map((father) => father.standing)));
		for (const standing of ['seen', 'likely', 'possible', 'ruled out'] as const)
			expect(standings).toContain(standing);
		expect(spawns.some(({ fathers }) => fathers.number === 'one' && fathers.of.length > 1)).toBe(true);
		expect(spawns.some(({ fathers }) => fathers.of.length === 0 && fathers.others)).toBe(true);
		const stored = spawns.filter(
			({ sort, inGroup, fathers }) => sort === 'drop' && fathers.of.some((father) => father.group !== inGroup)
		);
		expect(stored.length).toBeGreaterThanOrEqual(10);
		// The newcomer's females came alone: every possible father is a group that she has never seen.
		const first = spawns.filter(({ room }) => room === roomNamed('nook'));
		expect(first.length).toBeGreaterThanOrEqual(1);
		for (const { fathers, inGroup } of first)
			expect(fathers.of.some((father) => father.group === inGroup)).toBe(false);
	});

	test('egg bags rest in peat with days to come', () => {
		const today = now.toISOString().slice(0, 10);
		const resting = groups.filter((group) => group.stage === 'eggs in peat' && !group.ended);
		expect(resting.length).toBeGreaterThanOrEqual(1);
		expect(resting.some((group) => (group.eggBag?.wetDue ?? '') > today)).toBe(true);
	});

	test('corrections: two versions of one count wait, an earlier pair was settled, things were taken back with reasons', () => {
		expect(groups.filter((group) => group.twoVersions.length > 0).length).toBe(1);
		expect(ofKind('group/counted').filter((entry) => entry.corrects?.length === 3).length).toBe(1);
		const withdrawn = ofKind('word/withdrawn');
		expect(withdrawn.length).toBeGreaterThanOrEqual(3);
		for (const { corrects, body } of withdrawn) {
			expect((body as { reason: string }).reason).not.toBe('');
			expect(fold.view(corrects?.[0] ?? '')?.correctedBy.length).toBeGreaterThanOrEqual(1);
		}
	});

	test('three statements wait for a tap, three were confirmed, one decision is not allowed', () => {
		expect(verdicts('waiting')).toEqual([]);
		expect(
			verdicts('told by')
				.map((id) => fold.entry(id)?.kind)
				.sort()
		).toEqual(['bag/bagged', 'group/counted', 'room/checkedIn']);
		expect(ofKind('word/confirmed').length).toBe(3);
		expect(verdicts('not allowed').map((id) => fold.entry(id)?.kind)).toEqual(['line/rulesSet']);
	});

	test('quarantine goes on, one made longer; spare fish are offered, lines are wanted', () => {
		const apart = groups.filter((group) => !group.ended && (group.quarantine?.untilMs ?? 0) > now.getTime());
		expect(apart.length).toBeGreaterThanOrEqual(2);
		expect(apart.some((group) => group.quarantine?.reason !== 'new arrivals')).toBe(true);
		const today = now.toISOString().slice(0, 10);
		expect(groups.filter((group) => group.spare && group.spare.until >= today).length).toBeGreaterThanOrEqual(
			2
		);
		const wants = [...fold.state.rooms.values()].flatMap((room) => room.wants);
		expect(wants.filter((want) => !want.ended).length).toBe(4);
		expect(wants.filter((want) => want.ended).length).toBe(2);
	});

	test('monthly meetings with hand-overs, the next within three weeks with rooms coming and exchanges agreed', () => {
		const today = now.toISOString().slice(0, 10);
		const meetings = [...fold.state.meetings.values()];
		const past = meetings.filter((meeting) => meeting.date < today);
		expect(past.length).toBeGreaterThanOrEqual(36);
		expect(past.filter((meeting) => meeting.bags.length > 0).length).toBeGreaterThanOrEqual(15);
		expect(meetings.filter((meeting) => meeting.calledOff).length).toBe(1);
		const ahead = meetings.filter((meeting) => meeting.date >= today);
		expect(ahead.length).toBe(1);
		expect(Date.parse(ahead[0]?.date ?? '') - now.getTime()).toBeLessThan(21 * dayMs);
		expect(ahead[0]?.attending.filter((one) => one.coming).length).toBeGreaterThanOrEqual(5);
		const agreed = [...fold.state.exchanges.values()].filter(
			(one) => one.meeting === ahead[0]?.id && one.stage === 'agreed'
		);
		expect(agreed.length).toBeGreaterThanOrEqual(2);
	});

	test('exchanges stand in every state, one asked for a meeting that has passed, some answered by phone', () => {
		const exchanges = [...fold.state.exchanges.values()];
		const stages = new Set(exchanges.map((one) => one.stage));
		for (const stage of [
			'proposed',
			'asked',
			'agreed',
			'bagged',
			'handed over',
			'arrived',
			'settled'
		] as const)
			expect(stages).toContain(stage);
		for (const stage of ['declined', 'put off', 'called off', 'failed'] as const)
			expect(stages).toContain(stage);
		const today = now.toISOString().slice(0, 10);
		const lapsed = exchanges.filter(
			({ stage, meeting }) =>
				stage === 'asked' && (fold.state.meetings.get(meeting ?? '')?.date ?? today) < today
		);
		expect(lapsed.length).toBeGreaterThanOrEqual(1);
		expect(
			exchanges.flatMap((one) => one.answers).filter((one) => one.byPhone).length
		).toBeGreaterThanOrEqual(1);
	});

	test('rows of an old list: confirmed later in the first lines, not asked yet in the last', () => {
		const listed = groups.filter((group) => group.origin.from === 'list');
		expect(listed.length).toBeGreaterThanOrEqual(5);
		expect(
			listed.filter((group) => group.now.certainty === 'old list' && !group.ended).length
		).toBeGreaterThanOrEqual(3);
	});

	test('dates are exact, days, and about', () => {
		const texts = loaded.scenario.entries.map(({ entry }) => entry.happened);
		for (const form of [/T.*Z$/, /^\d{4}-\d\d-\d\d$/, /^\d{4}-\d\d-\d\d~$/, /^\d{4}-\d\d~$/])
			expect(texts.some((text) => form.test(text))).toBe(true);
	});

	test('private words stand in the documents of their rooms and of the officers, and nowhere else', async () => {
		const audiences = await loaded.ledger.audiences(loaded.scenario.club.id);
		let words = 0;
		for (const audience of audiences.filter((one) => one.startsWith('room:'))) {
			for (const { text } of await inputsOf(loaded, audience)) {
				expect(JSON.parse(text ?? '')).toMatchObject({
					kind: 'room/privateWords',
					body: { room: audience.split(':')[1] }
				});
				words += 1;
			}
		}
		expect(words).toBe(ofKind('room/privateWords').length);
		expect(words).toBeGreaterThanOrEqual(5);
		expect((await inputsOf(loaded, 'officers')).length).toBe(4);
	});
});
