import { describe, expect, test } from 'vitest';
import { readFirstList } from '#club/lines/readFirstList.ts';
import { readListCount } from '#club/lines/readListCount.ts';
import { readListDate } from '#club/lines/readListDate.ts';
import { listDrafts } from '#ui/lists/listDrafts.ts';
import { linesOverview } from '#club/lines/linesOverview.ts';
import { linePage } from '#club/lines/linePage.ts';
import { limits } from '#protocol/limits.ts';
import { EntryIdMaker } from '#sync/newEntryId.ts';
import { writeEntries } from '#sync/writeEntries.ts';
import { listTakenBack } from '#ui/lists/listTakenBack.ts';
import { writingParts } from '#ui/lists/writingParts.ts';
import { ago, ClubOf, fish, today } from './clubOf.ts';

const club = () => new ClubOf().line('harbour');
const read = (text: string) => readFirstList(club().state, { text });

describe('readFirstList', () => {
	test.each([
		['tabs', 'harbour line\tmill room\t1.2.6\t2024-05'],
		['semicolons', 'harbour line; mill room; 1.2.6; 2024-05'],
		['bars', 'HARBOUR | Mill  Room | 1m 2f 6? | May 2024'],
		['commas and quotes', '"harbour line",mill room,"1.2.6",5/2024']
	])('%s', (_name, text) => {
		expect(read(text).rows).toEqual([
			{
				...{ row: 1, text, lineName: 'harbour line', line: 'harbour', roomName: 'mill room', room: 'mill' },
				...{ fish: fish(1, 2, 6), since: '2024-05', problem: '', note: '' }
			}
		]);
	});

	test.each([
		['no line', ', mill room, 3', 'This row has no line'],
		['no room', 'harbour line', 'This row has no room'],
		['a room misspelt', 'harbour line, mil room', 'There is no room called mil room'],
		['a count in words', 'harbour line, mill room, a few', '“a few” cannot be read as a count'],
		['a date of two meanings', 'harbour line, mill room, 3, 03/04/2024', 'write 2024-04-03 or 2024-03-04'],
		['a date in words', 'harbour line, mill room, 3, long ago', '“long ago” cannot be read as a date']
	])('%s: one sentence, the row is kept as typed', (_name, text, problem) => {
		const [row] = read(text).rows;
		expect(row?.problem).toContain(problem);
		expect(row?.problem.split('.').filter((part) => part.trim() && !/^\d/.test(part)).length).toBe(1);
		expect(row?.text).toBe(text);
	});

	test('a heading and empty rows are passed over; the same row twice is told', () => {
		const list = read(
			'Line, Room, Count, Since\n\nharbour line, mill room, 3\nnew one, mill room\nharbour line, mill room, 3'
		);
		expect(list.rows.map((row) => [row.row, row.problem])).toEqual([
			[3, ''],
			[4, ''],
			[5, 'This row says the same as row 3: take one of them out.']
		]);
		expect(list).toMatchObject({ ready: 2, problems: 1, newLines: ['new one'] });
	});
	test('count and since may be empty', () => {
		expect(read('harbour line, mill room').rows[0]).toMatchObject({ fish: null, since: '', problem: '' });
	});
});

test.each<[string, ReturnType<typeof readListCount>]>([
	['1.2', fish(1, 2)],
	['1.2.6', fish(1, 2, 6)],
	['~12', fish(0, 0, 12)],
	['about 12 young', fish(0, 0, 12)],
	['3f 2m', fish(2, 3)],
	['', null],
	['not known', null],
	['1.2.3.4', 'unreadable'],
	['-3', 'unreadable']
])('readListCount(%j)', (typed, expected) => expect(readListCount(typed)).toEqual(expected));

test.each([
	['2019', '2019'],
	['about 2019', '2019~'],
	['Sept 2023', '2023-09'],
	['12 March 2024', '2024-03-12'],
	['31/12/2024', '2024-12-31'],
	['12/31/2024', '2024-12-31'],
	['29.2.2024', '2024-02-29'],
	['05/05/2024', '2024-05-05']
])('readListDate(%j) is %s', (typed, text) => expect(readListDate(typed)).toEqual({ text, problem: '' }));
test.each(['30/2/2024', '2024-13', 'spring'])('readListDate(%j) is no date', (typed) =>
	expect(readListDate(typed).problem).toContain('cannot be read as a date')
);

describe('listDrafts', () => {
	let things = 0;
	const of = (mayOpen: boolean) => ({
		...{
			now: ago(0),
			mayOpen,
			fishGroups: new Map([['weir cory', 'corydoras' as const]]),
			codesTaken: ['WEI-COR']
		},
		newThing: () => `new-${++things}`
	});
	const text =
		'Weir cory, mill room, 1.2.6, 2019-05\nWeir cory, quarry room\nharbour line, tower room, 4, 2023';

	test('lines that are missing are opened first; the club reads them as not asked yet', () => {
		const at = club();
		const writing = listDrafts(readFirstList(at.state, { text }).rows, of(true));
		expect(writing).toMatchObject({ linesOpened: 1, groups: 3 });
		expect(writing.drafts.map(({ draft }) => draft.kind)).toEqual([
			'line/opened',
			...Array(3).fill('group/started')
		]);
		for (const { draft } of writing.drafts) at.write('officer', draft);
		const row = linesOverview(at.state, { search: 'weir' }, at.asking()).rows[0]!;
		expect([row.name, row.code, row.fishGroup, row.state.word]).toEqual([
			'Weir cory',
			'WEI-COR-2',
			'corydoras',
			'not asked yet'
		]);
		const page = linePage(at.state, { line: row.id }, at.asking())!;
		expect(page.rooms.map((room) => [room.room, room.word, room.sinceText, room.fish])).toEqual([
			['mill', 'unknown', '2019-05', fish(1, 2, 6)],
			['quarry', 'unknown', '', fish(0, 0)]
		]);
	});
	test('a count made afterwards stands in place of the list’s', () => {
		const at = club();
		for (const { draft } of listDrafts(readFirstList(at.state, { text }).rows, of(true)).drafts)
			at.write('officer', draft);
		const group = [...at.state.groups.values()].find((each) => each.room === 'tower')!;
		const body = { group: group.id, room: 'tower', fish: fish(1, 1), certainty: 'counted' };
		at.write('tower-keeper', { kind: 'group/counted', happened: ago(0), about: [group.id], body });
		expect(at.state.groups.get(group.id)?.now).toMatchObject({ fish: fish(1, 1), certainty: 'counted' });
	});
	test('who may not open lines writes only rows of lines that are there', () => {
		expect(listDrafts(readFirstList(club().state, { text }).rows, of(false))).toMatchObject({
			linesOpened: 0,
			groups: 1
		});
	});
	test('180 rows go in as writings that the device takes, and one word each takes all of it back', () => {
		const at = club();
		const long = Array.from({ length: 180 }, (_, i) => `Weir cory ${i % 40}, mill room, ${i + 1}.2.6, 2019`);
		const { drafts, groups } = listDrafts(readFirstList(at.state, { text: long.join('\n') }).rows, of(true));
		expect(groups).toBe(180);
		const ids = new EntryIdMaker();
		const writer = { member: 'officer', device: 'd', ids, versionOf: () => 1 };
		const parts = writingParts(drafts).map((part) =>
			writeEntries(
				part.map(({ draft }) => draft),
				'club',
				writer,
				today
			).map(({ entry }) => entry)
		);
		expect(parts.flat().length).toBe(drafts.length);
		at.fold.add(
			parts.flat().map((entry, n) => ({ entry, stamp: { id: entry.id, n: 1000 + n, time: today } }))
		);
		expect(linesOverview(at.state, { search: 'weir' }, at.asking()).rows.length).toBe(40);
		for (const part of parts)
			for (const draft of listTakenBack(part, new Date(today))) at.write('officer', draft);
		expect(linesOverview(at.state, {}, at.asking()).rows.map((row) => row.id)).toEqual(['harbour']);
		expect([...at.state.groups.values()].filter((group) => group.room !== null)).toEqual([]);
	});
	test('rows as long as they may be are split into more writings, none too large to be shared in one go', () => {
		const body = 'ü'.repeat(3900);
		const rows = Array.from({ length: 64 }, (_, row) => ({
			draft: { kind: 'x', happened: '', about: [], body },
			row
		}));
		const parts = writingParts(rows);
		expect(parts.flat()).toEqual(rows);
		const bytes = parts.map((part) => new TextEncoder().encode(JSON.stringify(part)).length);
		expect(Math.max(...bytes)).toBeLessThan(limits.maxUnansweredBytes);
	});
});
