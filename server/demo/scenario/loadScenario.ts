/**
 * Writes the demo club into a server, at the times of the scenario: what officers asked for goes through the same
 * tables and functions as ever, members' entries through the ledger with ids and texts unchanged. The clock is moved
 * along, so that numbers, times of acceptance and volumes come out as if three years had passed.
 */
import type { MemberId } from '#records/entry.ts';
import type { ClubRecord } from '../../club/clubRecord.ts';
import { joinClub, leaveClub, openClub } from '../../club/members.ts';
import { endRole, giveRole } from '../../club/roles.ts';
import { changeKeepers, openRoom } from '../../club/rooms.ts';
import type { Db, Tx } from '../../club/tables.ts';
import type { Ledger } from '../../ledger/ledger.ts';
import type { ClubFact, Scenario, ScenarioEntry } from './scenario.ts';

export interface LoadingParts {
	readonly db: Db;
	readonly record: ClubRecord;
	readonly ledger: Ledger;
	/** Moves the clock that the ledger reads; only ever forward. */
	readonly setClock: (time: number) => void;
	/** The account of a member, made when it joins; called once for each. */
	readonly accountOf: (transaction: Tx, member: Scenario['members'][number], at: number) => Promise<string>;
}

type Step = { readonly at: number } & ({ readonly fact: ClubFact } | { readonly entry: ScenarioEntry });

/** What is accepted within this time shares a commit: three years in some hundred commits. */
const commitMs = 5 * 86_400_000;

/** @returns the number of entries written, the club's own not counted */
export async function loadScenario(parts: LoadingParts, scenario: Scenario): Promise<number> {
	const { ledger, setClock } = parts;
	const club = scenario.club.id;
	const bringer = bringerOf(scenario);
	let waiting: ScenarioEntry[] = [];
	let written = 0;

	async function write(until: number): Promise<void> {
		if (waiting.length === 0) return;
		setClock(until);
		const group = waiting;
		waiting = [];
		for (const audience of new Set(group.map((one) => one.audience))) {
			const texts = group
				.filter((one) => one.audience === audience)
				.map(({ entry }) => JSON.stringify(entry));
			const answers = await ledger.bring(club, await audienceNow(parts, audience), texts, {
				member: bringer,
				device: 'demo'
			});
			const refused = answers.find((answer) => 'reason' in answer);
			if (refused)
				throw new Error(`loadScenario must have every entry taken, got ${JSON.stringify(refused)}`);
			written += answers.length;
		}
	}

	let last = 0;
	for (const step of inOrder(scenario)) {
		const first = waiting[0];
		if (
			first &&
			('fact' in step || step.at - first.sharedAt > commitMs || !isSameYear(first.sharedAt, step.at))
		)
			await write(last);
		if ('fact' in step) await ask(parts, scenario, step.fact);
		else waiting.push(step.entry);
		last = step.at;
	}
	await write(last);
	setClock(scenario.now);
	await giveNumbers(parts.db, scenario);
	return written;
}

/** Facts before entries of the same time; entries as they reached the server. */
function inOrder(scenario: Scenario): Step[] {
	const facts = scenario.facts.map((fact): Step => ({ at: fact.at, fact }));
	const entries = scenario.entries.map((entry): Step => ({ at: entry.sharedAt, entry }));
	return [...facts, ...entries].sort((a, b) => a.at - b.at);
}

const isSameYear = (a: number, b: number) => new Date(a).getUTCFullYear() === new Date(b).getUTCFullYear();

/** The rows note who brought them in: the officer who opened the club. */
function bringerOf(scenario: Scenario): MemberId {
	const officer = scenario.facts.find((fact) => fact.fact === 'role given' && fact.role === 'officer');
	if (officer?.fact !== 'role given') throw new RangeError('loadScenario requires an officer');
	return officer.member;
}

/** Private words of a room go to the document of those who keep it at that time. */
async function audienceNow({ db }: LoadingParts, audience: ScenarioEntry['audience']): Promise<string> {
	if (audience === 'club' || audience === 'officers') return audience;
	const room = audience.slice('room:'.length);
	const row = await db.selectFrom('room').select('epoch').where('id', '=', room).executeTakeFirstOrThrow();
	return `room:${room}:${row.epoch}`;
}

async function ask(parts: LoadingParts, scenario: Scenario, fact: ClubFact): Promise<void> {
	const { db, record, setClock } = parts;
	setClock(fact.at);
	await db.transaction().execute((transaction) => doAsAsked(transaction, parts, scenario, fact));
	await record.flush(scenario.club.id);
}

async function doAsAsked(
	transaction: Tx,
	{ record, accountOf }: LoadingParts,
	scenario: Scenario,
	fact: ClubFact
): Promise<void> {
	const club = scenario.club.id;
	const asked = { by: fact.by, at: fact.at };
	switch (fact.fact) {
		case 'club opened':
			await openClub(transaction, record, scenario.club, asked);
			return;
		case 'member joined': {
			const member = scenario.members.find(({ id }) => id === fact.member);
			if (!member) throw new RangeError(`loadScenario requires a known member, got ${fact.member}`);
			const account = await accountOf(transaction, member, fact.at);
			await joinClub(transaction, record, club, { id: member.id, account, name: fact.name }, asked);
			return;
		}
		case 'member left':
			return leaveClub(transaction, record, club, fact.member, asked);
		case 'role given':
			return giveRole(transaction, record, club, fact, asked);
		case 'role ended':
			return endRole(transaction, record, club, fact, asked);
		case 'room opened': {
			const room = scenario.rooms.find(({ id }) => id === fact.room);
			if (!room) throw new RangeError(`loadScenario requires a known room, got ${fact.room}`);
			await openRoom(transaction, record, club, { ...room, keepers: fact.keepers }, asked);
			return;
		}
		case 'keeper added':
			return changeKeepers(transaction, record, club, fact.room, { add: [fact.member], remove: [] }, asked);
	}
}

/** The labels on the demo's bags are spent: no device is given them again. */
async function giveNumbers(db: Db, scenario: Scenario): Promise<void> {
	const rows = scenario.numberBlocks.map(({ device, first, last, at }) => ({
		...{ club: scenario.club.id, device, first, last, givenAt: at },
		request: `demo ${first}`
	}));
	if (rows.length > 0) await db.insertInto('numberBlock').values(rows).execute();
}
