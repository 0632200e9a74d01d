import { describe, expect, test } from 'vitest';
import { historyOf } from '#club/history/historyOf.ts';
import { todayOnDevice } from '#club/history/todayOnDevice.ts';
import { memberPage } from '#club/people/memberPage.ts';
import { groupPage } from '#club/groups/groupPage.ts';
import { roomPage } from '#club/rooms/roomPage.ts';
import { roomsList } from '#club/rooms/roomsList.ts';
import { confirmed, decided, disputed, otherNumber, withdrawn } from '#ui/history/wordDrafts.ts';
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
		expect(old?.corrections).toEqual(['harbour keeper: Taken back: Written twice.']);
		expect(old?.mayCorrect).toBe(false);
		expect(groupPage(club.state, { group: 'g' }, club.asking())?.fish).toEqual(fish(2, 3));
	});

	test('another number stands at the time of the old one, without two versions', () => {
		const club = harbour();
		club.counted('g', 'harbour', fish(9, 9), 10);
		for (const draft of otherNumber(said(club, 'harbour-keeper')[0]!, ago(0), fish(2, 1), 'Wrong number'))
			club.write('harbour-keeper', draft);
		const page = groupPage(club.state, { group: 'g' }, club.asking())!;
		expect([page.fish, page.twoVersions]).toEqual([fish(2, 1), false]);
		expect(page.counted?.when.text).toBe(ago(10));
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
