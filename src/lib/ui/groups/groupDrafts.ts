/** What is written about a group, by one tap each. */
import type { Draft, ThingId } from '#records/entry.ts';
import type { Fish, Origin, Stage } from '#records/state.ts';

/** The group spoken of, with the room that says so. */
export interface GroupRef {
	readonly id: ThingId;
	readonly room: { readonly id: ThingId } | null;
	readonly line: { readonly id: ThingId } | null;
}
export type LossWhy = 'died' | 'lost' | 'rehomed' | 'put down' | 'let go';

function draft(kind: string, group: GroupRef, happened: string, body: object, toldBy?: string): Draft {
	return {
		kind,
		happened,
		about: [group.id],
		...(toldBy ? { toldBy } : {}),
		body: { group: group.id, room: group.room?.id ?? null, ...body }
	};
}

export function counted(
	group: GroupRef,
	happened: string,
	fish: Fish,
	certainty: 'counted' | 'about'
): Draft {
	return draft('group/counted', group, happened, { fish, certainty });
}

export function changed(
	group: GroupRef,
	happened: string,
	fish: Fish,
	why: LossWhy | 'added',
	cause = ''
): Draft {
	return draft('group/changed', group, happened, { fish, why, cause });
}

export function stageReached(group: GroupRef, happened: string, stage: Stage): Draft {
	return draft('group/stageReached', group, happened, { stage });
}

export function mixed(group: GroupRef, happened: string, sort: string, what: string): Draft {
	const line = group.line?.id ?? null;
	const made = draft('group/mixed', group, happened, { line, sort, what });
	return { ...made, about: line ? [group.id, line] : [group.id] };
}

export function closed(group: GroupRef, happened: string, reason: string, toldBy?: string): Draft {
	return draft('group/closed', group, happened, { reason }, toldBy);
}

export function reopened(group: GroupRef, happened: string, toldBy?: string): Draft {
	return draft('group/reopened', group, happened, {}, toldBy);
}

/** @param until last day, ISO date; '' = ended now */
export function quarantineSet(
	group: GroupRef,
	happened: string,
	until: string,
	reason: string,
	toldBy?: string
): Draft {
	return draft('group/quarantineSet', group, happened, { until, reason }, toldBy);
}

/** No fish = the offer has ended. */
export function spareOffered(
	group: GroupRef,
	happened: string,
	fish: Fish,
	until: string,
	note: string,
	toldBy?: string
): Draft {
	return draft('group/spareOffered', group, happened, { fish, until, note }, toldBy);
}

export function named(group: GroupRef, happened: string, name: string, tank: string): Draft {
	return draft('group/named', group, happened, { name, tank });
}

export function eggsStored(
	group: GroupRef,
	happened: string,
	label: string,
	checkDue: string,
	wetDue: string
): Draft {
	return draft('group/eggsStored', group, happened, { label, checkDue, wetDue });
}

export interface NewGroup {
	readonly group: ThingId;
	readonly line: ThingId;
	readonly room: ThingId;
	readonly name: string;
	readonly tank: string;
	readonly origin: Origin;
	readonly fish: Fish;
	readonly certainty: 'counted' | 'about' | 'old list';
	readonly stage: Stage | null;
}
export function started(happened: string, body: NewGroup): Draft {
	const from = body.origin.from === 'group' ? body.origin.groups : [];
	return { kind: 'group/started', happened, about: [body.group, ...from], body };
}
