import type { Entry, EntryId, MemberId, ThingId } from '#records/entry.ts';
import type { Names } from '#records/kind.ts';
import { sentenceOf } from '#records/names.ts';
import { idTime } from '#records/rank.ts';
import type { ClubState, Thing, Verdict } from '#records/state.ts';
import { toldByName } from '../people/saidBy.ts';
import type { AskedFold, Asking } from '../question.ts';
import { partInEntry } from './partInEntry.ts';
import { subjectOf } from './subjectOf.ts';
import { thingOf } from './thingOf.ts';

/** What stands in an entry's place, or beside it. */
export interface Version {
	readonly id: EntryId;
	readonly kind: string;
	readonly sentence: string;
	readonly who: string;
	/** Why it corrects; '' = no reason given. */
	readonly because: string;
	/** ISO 8601-2. */
	readonly happened: string;
	readonly about: readonly ThingId[];
	readonly corrects: readonly EntryId[];
	readonly body: unknown;
}

/** One statement about a thing, with everything that was said of it since. */
export interface Statement extends Version {
	readonly by: MemberId;
	readonly toldBy: string;
	readonly device: string;
	/** When it was written down, ms since 1970. */
	readonly written: number;
	/** How many entries were written with it, itself included. */
	readonly together: number;
	/** The writer's clock was wrong: the server's time stands beside it. */
	readonly clockWrong: boolean;
	readonly acceptedAt: number | null;
	readonly verdict: Verdict;
	/** Entries that replace it, live ones only; empty = it stands. */
	readonly correctedBy: readonly EntryId[];
	/** What the corrections said, with their reasons. */
	readonly corrections: readonly Version[];
	/** Two corrections or more that had not seen each other, this one among them: all of them. */
	readonly versions: readonly Version[];
	/** What others said about it: confirmed, disputed, decided. */
	readonly words: readonly {
		readonly id: EntryId;
		readonly sentence: string;
		readonly who: string;
		readonly counts: boolean;
	}[];
	/** An open dispute, for the one who decides. */
	readonly openDispute: { readonly id: EntryId; readonly reason: string; readonly who: string } | null;
	readonly mine: boolean;
	readonly mayCorrect: boolean;
	/** Corrections that took it back and that this member may take back in turn. */
	readonly mayRestore: readonly EntryId[];
	readonly mayConfirm: boolean;
	readonly mayDispute: boolean;
	readonly mayDecide: boolean;
}

const wordsOfOthers = new Set(['word/confirmed', 'word/disputed', 'word/decided']);

/** Whether an entry is a word about another one, which stands beside that one and not by itself. */
export function isWordOfOthers(kind: string): boolean {
	return wordsOfOthers.has(kind);
}

/** One statement with all that was said of it; null for an entry that has not come. */
export function statement(id: EntryId, state: ClubState, names: Names, asking: Asking): Statement | null {
	const { fold, me } = asking;
	const view = fold.view(id);
	const version = versionOf(id, names, fold);
	const entry = fold.entry(id);
	if (!entry || !view || !version) return null;
	const speaking = fold.speakingOf(id);
	const subject = subjectOf(id, fold);
	const part = partInEntry(state, me, subject);
	const open = openDisputes(id, fold)[0] ?? null;
	const mine = entry.by === me;
	const server = entry.by === 'club';
	const stands = view.correctedBy.length === 0;
	const corrections = speaking.filter((each) => view.correctedBy.includes(each.id));
	return {
		...version,
		by: entry.by,
		toldBy: entry.toldBy ? toldByName(entry.toldBy, names) : '',
		device: entry.device,
		written: idTime(entry.id) ?? 0,
		together: entry.together?.length ?? 1,
		clockWrong: view.clockWrong,
		acceptedAt: view.acceptedAt,
		verdict: view.verdict,
		correctedBy: view.correctedBy,
		corrections: corrections.flatMap((each) => versionOf(each.id, names, fold) ?? []),
		versions: versionsOf(id, thingsOf(id, state, fold)).flatMap((each) => versionOf(each, names, fold) ?? []),
		words: speaking
			.filter((each) => isWordOfOthers(each.kind))
			.map((each) => spokenWord(each, names, asking)),
		openDispute: open ? { id: open.id, reason: reasonIn(open), who: names.member(open.by) } : null,
		mine,
		mayCorrect: !server && stands && (mine || entry.toldBy === me || part.any),
		mayRestore: corrections
			.filter((each) => each.kind === 'word/withdrawn' && (each.by === me || part.officer))
			.map((each) => each.id),
		mayConfirm: view.verdict.name === 'told by' && stands && !mine && part.any,
		mayDispute: !server && stands && !mine && open === null,
		mayDecide: open !== null && part.decides
	};
}

/** Whether a person has to look at an entry: a doubt nobody decided, two versions, or one tap that it waits for. */
export function needsLook(id: EntryId, state: ClubState, fold: AskedFold): boolean {
	// Only what corrects can be one of two versions.
	if (fold.entry(id)?.corrects?.length && versionsOf(id, thingsOf(id, state, fold)).length) return true;
	const view = fold.view(id);
	if (!view || view.correctedBy.length) return false;
	return view.verdict.name === 'told by' || openDisputes(id, fold).length > 0;
}

function versionOf(id: EntryId, names: Names, fold: AskedFold): Version | null {
	const entry = fold.entry(id);
	if (!entry) return null;
	const { kind, happened, about, corrects = [], body } = entry;
	const sentence = sentenceOf(entry, names);
	return {
		...{ id, kind, happened, about, corrects, body },
		sentence: sentence.charAt(0).toUpperCase() + sentence.slice(1),
		who: names.member(entry.by),
		because: typeof entry.because === 'string' ? entry.because : ''
	};
}

function thingsOf(id: EntryId, state: ClubState, fold: AskedFold): Thing[] {
	return (subjectOf(id, fold)?.things ?? []).flatMap((thing) => thingOf(state, thing) ?? []);
}

function versionsOf(id: EntryId, things: readonly Pick<Thing, 'twoVersions'>[]): readonly EntryId[] {
	const sets = things.flatMap((thing) => thing.twoVersions).filter((set) => set.includes(id));
	return [...new Set(sets.flat())];
}

/** Doubts of an entry that count, were not taken back, and that nobody has decided; the oldest first. */
function openDisputes(id: EntryId, fold: AskedFold): Entry[] {
	const counting = (entry: Entry) => {
		const view = fold.view(entry.id);
		return view?.verdict.name === 'counts' && view.correctedBy.length === 0;
	};
	return fold
		.speakingOf(id)
		.filter(
			(each) =>
				each.kind === 'word/disputed' &&
				counting(each) &&
				!fold.speakingOf(each.id).some((one) => one.kind === 'word/decided' && counting(one))
		);
}

function reasonIn(entry: Entry): string {
	const { reason } = (entry.body ?? {}) as { reason?: unknown };
	return typeof reason === 'string' ? reason : '';
}

function spokenWord(entry: Entry, names: Names, asking: Asking): Statement['words'][number] {
	const verbs: Record<string, string> = {
		'word/confirmed': 'says so too',
		'word/disputed': 'doubts it',
		'word/decided': 'decided'
	};
	const { stands } = (entry.body ?? {}) as { stands?: unknown };
	const decided =
		entry.kind === 'word/decided' ? (stands === true ? ': it stands' : ': it does not stand') : '';
	const reason = reasonIn(entry);
	return {
		id: entry.id,
		sentence: `${names.member(entry.by)} ${verbs[entry.kind] ?? ''}${decided}${reason ? `. ${reason}` : ''}`,
		who: names.member(entry.by),
		counts: asking.fold.view(entry.id)?.verdict.name === 'counts'
	};
}
