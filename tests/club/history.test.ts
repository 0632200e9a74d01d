import { describe, expect, test } from 'vitest';
import { historyOf } from '#club/history/historyOf.ts';
import { todayOnDevice } from '#club/history/todayOnDevice.ts';
import { memberPage } from '#club/people/memberPage.ts';
import { groupPage } from '#club/groups/groupPage.ts';
import { roomPage } from '#club/rooms/roomPage.ts';
import { roomsList } from '#club/rooms/roomsList.ts';
import {
	confirmed,
	corrected,
	decided,
	disputed,
	restored,
	settled,
	withdrawn
} from '#ui/history/wordDrafts.ts';
import { ago, ClubOf, fish, today } from './clubOf.ts';

const harbour = () => new ClubOf().line('l').group('g', 'harbour', 'l', fish(2, 3), 100);
const said = (club: ClubOf, me: string) =>
	historyOf(club.state, { type: 'group', id: 'g' }, club.asking(me)).statements;
const now = { group: 'g', room: 'harbour', fish: fish(9, 9), certainty: 'counted' };
const byMill = (club: ClubOf) =>
	club.write('mill-keeper', { kind: 'group/counted', happened: ago(3), about: ['g'], body: now }, 3);

describe('historyOf(group)', () => {
	test('what was said, by whom, when it happened and when it was written, newest first', () => {
		const club = harbour();
		club.counted('g', 'harbour', fish(2, 2), 10);
		const statements = said(club, 'harbour-keeper');
		expect(statements.map(({ kind, who, verdict, mine }) => [kind, who, verdict.name, mine])).toEqual([
			['group/counted', 'harbour keeper', 'counts', true],
			['group/started', 'harbour keeper', 'counts', true]
		]);
		expect(statements[0]?.happened).toBe(ago(10));
		expect(Math.abs((statements[0]?.written ?? 0) - (today - 10 * 86_400_000))).toBeLessThan(60_000);
	});

	test('"told by": one tap of a keeper makes it count', () => {
		const club = harbour();
		byMill(club);
		const [told] = said(club, 'harbour-keeper');
		expect(told).toMatchObject({ verdict: { name: 'told by' }, mayConfirm: true, mayDispute: true });
		expect(said(club, 'mill-keeper')[0]).toMatchObject({
			mayConfirm: false,
			mayCorrect: true,
			mayDispute: false
		});
		expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(2, 3));
		club.write('harbour-keeper', confirmed(told!, ago(0)));
		expect(said(club, 'harbour-keeper')[0]).toMatchObject({
			verdict: { name: 'counts' },
			words: [{ sentence: 'harbour keeper says so too', counts: true }]
		});
		expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(9, 9));
	});

	test('taken back with a reason: the old words stay, the number goes', () => {
		const club = harbour();
		club.counted('g', 'harbour', fish(9, 9), 10);
		club.write('harbour-keeper', withdrawn(said(club, 'harbour-keeper')[0]!, ago(0), 'Written twice'));
		const old = said(club, 'harbour-keeper').find((each) => each.sentence.includes('9m 9f'));
		expect(old?.corrections).toMatchObject([
			{ who: 'harbour keeper', sentence: 'Taken back: Written twice.' }
		]);
		expect(old?.mayCorrect).toBe(false);
		expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(2, 3));
	});

	test('what was taken back is brought back by the one who took it back, or an officer', () => {
		const club = harbour();
		club.counted('g', 'harbour', fish(9, 9), 10);
		club.write('harbour-keeper', withdrawn(said(club, 'harbour-keeper')[0]!, ago(0), 'Written twice'));
		const old = (me: string) => said(club, me).find((each) => each.sentence.includes('9m 9f'))!;
		expect([old('mill-keeper'), old('officer')].map((each) => each.mayRestore.length)).toEqual([0, 1]);
		club.write('harbour-keeper', restored(old('harbour-keeper'), ago(0), 'It was right after all'));
		expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(9, 9));
		expect(old('harbour-keeper').correctedBy).toEqual([]);
	});

	test('another number stands at the time of the old one, with its reason, without two versions', () => {
		const club = harbour();
		club.counted('g', 'harbour', fish(9, 9), 10);
		const [wrong] = said(club, 'harbour-keeper');
		club.write('harbour-keeper', corrected(wrong!, { fish: fish(2, 1) }, 'Wrong number'));
		const page = groupPage(club.state, { group: 'g' }, club.asking())!;
		expect([page.fish, page.twoVersions]).toEqual([fish(2, 1), false]);
		expect(page.counted?.when.text).toBe(ago(10));
		expect(said(club, 'mill-keeper').find((each) => each.id === wrong?.id)?.corrections).toMatchObject([
			{ who: 'harbour keeper', sentence: 'G group: 2m 1f.', because: 'Wrong number' }
		]);
	});

	test('a first number, another day and another group are put right the same way', () => {
		const club = harbour().group('h', 'harbour', 'l', fish(1, 1), 90);
		const first = said(club, 'harbour-keeper').find((each) => each.kind === 'group/started')!;
		club.write('harbour-keeper', corrected(first, { fish: fish(7, 7) }, 'Wrong number'));
		expect(groupPage(club.state, { group: 'g' }, club.asking())).toMatchObject({
			fish: fish(7, 7),
			givenName: 'g group',
			room: { id: 'harbour' }
		});
		club.counted('g', 'harbour', fish(3, 0), 10);
		const count = said(club, 'harbour-keeper').find((each) => each.kind === 'group/counted')!;
		club.write('harbour-keeper', corrected(count, { group: 'h' }, 'Wrong group or tank'));
		const fishOf = (group: string) => groupPage(club.state, { group }, club.asking())?.fish;
		expect([fishOf('g'), fishOf('h')]).toEqual([fish(7, 7), fish(3, 0)]);
		const moved = historyOf(club.state, { type: 'group', id: 'h' }, club.asking()).statements[0]!;
		club.write('harbour-keeper', corrected(moved, { happened: '2026-06' }, 'Wrong day'));
		expect(groupPage(club.state, { group: 'h' }, club.asking())?.counted?.when.text).toBe('2026-06');
	});

	describe('two versions, needs a look', () => {
		function twoVersions() {
			const club = harbour();
			club.counted('g', 'harbour', fish(9, 9), 10);
			const wrong = said(club, 'officer')[0]!;
			const mine = club.write('harbour-keeper', corrected(wrong, { fish: fish(2, 2) }, 'Wrong number'));
			const other = club.write('officer', corrected(wrong, { fish: fish(2, 3) }, 'Wrong number'));
			return { club, wrong, mine, other };
		}
		const twice = (club: ClubOf) => groupPage(club.state, { group: 'g' }, club.asking())?.twoVersions;
		const look = (club: ClubOf) =>
			historyOf(club.state, { type: 'group', id: 'g', look: true }, club.asking('harbour-keeper'));

		test('both are shown, and only they need a look', () => {
			const { club, mine, other } = twoVersions();
			expect(twice(club)).toBe(true);
			expect(
				look(club)
					.statements.map((each) => each.id)
					.sort()
			).toEqual([mine, other].sort());
			expect(look(club).statements[0]?.versions.map((version) => version.sentence)).toEqual([
				'G group: 2m 2f.',
				'G group: 2m 3f.'
			]);
			expect(look(club).look).toBe(2);
		});

		test('the one that holds is said anew, naming both', () => {
			const { club, mine } = twoVersions();
			const statement = look(club).statements[0]!;
			const holds = statement.versions.find((version) => version.id === mine)!;
			club.write('harbour-keeper', settled(statement, holds, ago(0), 'Counted again'));
			expect([twice(club), look(club).look]).toEqual([false, 0]);
			expect(groupPage(club.state, { group: 'g' }, club.asking())).toMatchObject({
				fish: fish(2, 2),
				counted: { when: { text: ago(10) } }
			});
		});

		test('neither: a third number names both', () => {
			const { club } = twoVersions();
			club.write('officer', corrected(look(club).statements[0]!, { fish: fish(4, 4) }, 'Counted again'));
			expect(twice(club)).toBe(false);
			expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(4, 4));
		});

		test('one put right, one taken back: taking back that holds takes back all of them', () => {
			const club = harbour();
			club.counted('g', 'harbour', fish(9, 9), 10);
			const wrong = said(club, 'officer')[0]!;
			const back = club.write('officer', withdrawn(wrong, ago(0), 'It did not happen'));
			club.write('harbour-keeper', corrected(wrong, { fish: fish(8, 8) }, 'Wrong number'));
			const statement = look(club).statements[0]!;
			const holds = statement.versions.find((version) => version.id === back)!;
			club.write('officer', settled(statement, holds, ago(0), 'We talked about it'));
			expect(twice(club)).toBe(false);
			expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(2, 3));
		});
	});

	test('doubted, decided and corrected in the history of room and line too', () => {
		const club = harbour();
		const first = said(club, 'mill-keeper')[0]!;
		const doubt = club.write('mill-keeper', disputed(first, ago(1), 'They were other fish'));
		for (const [type, id] of [
			['room', 'harbour'],
			['line', 'l']
		] as const) {
			const of = (me: string) =>
				historyOf(club.state, { type, id, look: true }, club.asking(me)).statements.map((each) => [
					each.openDispute?.id,
					each.mayDecide,
					each.mayCorrect
				]);
			expect(of('officer')).toEqual([[doubt, true, true]]);
			expect(of('harbour-keeper')).toEqual([[doubt, false, true]]);
			expect(of('weir-keeper')).toEqual([[doubt, false, false]]);
		}
	});

	test('a dispute stays open until an officer decides', () => {
		const club = harbour();
		club.counted('g', 'harbour', fish(9, 9), 10);
		const doubt = club.write(
			'mill-keeper',
			disputed(said(club, 'mill-keeper')[0]!, ago(1), 'It was another number')
		);
		const open = said(club, 'officer').find((each) => each.openDispute);
		expect(open).toMatchObject({
			mayDecide: true,
			openDispute: { id: doubt, reason: 'It was another number', who: 'mill keeper' }
		});
		expect(said(club, 'mill-keeper').some((each) => each.mayDecide)).toBe(false);
		club.write('officer', decided(open!, doubt, ago(0), false, 'Both agree now'));
		expect(said(club, 'officer').some((each) => each.openDispute)).toBe(false);
		expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(2, 3));
	});

	test('a limit shows the newest and says how many there are', () => {
		const club = harbour();
		for (let i = 1; i <= 5; i++) club.counted('g', 'harbour', fish(i, 0), 20 - i);
		const history = historyOf(club.state, { type: 'group', id: 'g', limit: 2 }, club.asking());
		expect([history.all, history.statements.map((each) => each.sentence)]).toEqual([
			6,
			['G group: 5m.', 'G group: 4m.']
		]);
	});
});

test('historyOf(member) holds what they wrote', () => {
	const club = harbour();
	const kinds = historyOf(club.state, { type: 'member', id: 'harbour-keeper' }, club.asking()).statements.map(
		(each) => each.kind
	);
	expect(kinds).toContain('group/started');
	expect(kinds).toContain('club/memberJoined');
});

test('historyOf(line) and historyOf(room) hold how their groups began', () => {
	const club = harbour();
	for (const [type, id] of [
		['line', 'l'],
		['room', 'harbour']
	] as const) {
		const kinds = historyOf(club.state, { type, id }, club.asking()).statements.map((each) => each.kind);
		expect(kinds).toContain('group/started');
	}
	const elsewhere = historyOf(club.state, { type: 'room', id: 'mill' }, club.asking()).statements;
	expect(elsewhere.map((each) => each.kind)).not.toContain('group/started');
});

test('todayOnDevice: only this device, only since then, newest first', () => {
	const club = harbour();
	club.counted('g', 'harbour', fish(1, 1), 0);
	club.counted('g', 'harbour', fish(1, 2), 0);
	byMill(club);
	const told = todayOnDevice(
		club.state,
		{ device: 'harbour-keeper-phone', since: today - 3_600_000 },
		club.asking('harbour-keeper')
	);
	expect(told.map((each) => each.sentence)).toEqual(['G group: 1m 2f.', 'G group: 1m 1f.']);
});

test('memberPage, roomPage and roomsList: one’s own first', () => {
	const club = harbour();
	expect(memberPage(club.state, { member: 'harbour-keeper' }, club.asking('harbour-keeper'))).toMatchObject({
		...{ name: 'harbour keeper', isMe: true, rooms: [{ id: 'harbour' }], lines: [{ id: 'l' }] }
	});
	expect(memberPage(club.state, { member: 'officer' }, club.asking())?.roles[0]?.words).toBe('officer');
	const page = roomPage(club.state, { room: 'harbour' }, club.asking('harbour-keeper'))!;
	expect(page.part).toEqual({ officer: false, coordinates: false, keeps: true, any: true });
	expect(page.lines).toMatchObject([
		{ line: 'l', holding: { word: 'holds it', ageing: true }, groups: [{ id: 'g' }] }
	]);
	expect(roomsList(club.state, {}, club.asking('weir-keeper'))[0]).toMatchObject({ id: 'weir', mine: true });
});
