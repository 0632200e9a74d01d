/**
 * One device's connection to one document: reads frames, has updates judged, answers by id. Whatever goes wrong here
 * closes this connection and no other.
 */
import { limits } from '#protocol/limits.ts';
import type { LogMessage, MineMessage, ServerMessage } from '#protocol/messages.ts';
import type { ReasonName } from '#protocol/reasons.ts';
import { readFrame, writeMessage, writeState, writeStateVector, writeUpdate } from './frames.ts';
import type { Verdict, Writer } from './guard.ts';
import type { LoadedClub, Member } from './loadedClub.ts';
import { readStructs, type Struct } from './readStructs.ts';
import type { Outcome, Submission } from './submit.ts';

/** The wire to a device. */
export interface Peer {
	send(frame: Uint8Array): void;
	close(reason: ReasonName): void;
	/** Bytes that were sent and have not left yet. */
	readonly unsentBytes: number;
}

export interface Connection {
	receive(frame: Uint8Array): void;
	/** The wire is gone. */
	left(): void;
	/** Closes it from this side. */
	close(reason: ReasonName): void;
}

export interface ConnectionParts {
	readonly loaded: LoadedClub;
	readonly peer: Peer;
	readonly document: string;
	readonly audience: string;
	readonly writer: Writer;
	readonly clock: () => number;
	readonly log: (event: string, about: Readonly<Record<string, string | number>>) => void;
	readonly submit: (submission: Submission, from: Member) => Promise<Outcome>;
	/** A device shows that the club lost rows; resolves when that was dealt with. */
	readonly rowsMissing: (message: MineMessage) => Promise<void>;
	readonly onLeft: () => void;
}

/** A peer that reads so slowly is better off fetching again. */
const maxUnsentBytes = 16 * 1024 * 1024;
/** Frames that a device may send at once, and how fast this fills up again: an honest one sends a few a second. */
const maxFramesAtOnce = 600;
const framesPerSecond = 100;
/** In-flight structs after a gap are no news; a device that sends on and on after one is told again. */
const maxIgnoredGaps = 32;
const maxForeignFrames = 64;

export function createConnection(parts: ConnectionParts): Connection {
	const { loaded, peer, writer, clock } = parts;
	const edition = loaded.memory.edition;
	let isOpen = true;
	let hasStateOfDevice = false;
	const unanswered = { entries: 0, bytes: 0 };
	let frames = { left: maxFramesAtOnce, at: clock() };
	let foreignFrames = 0;
	/** By log: from which clock the device was asked to send, and the first clock it had sent instead. */
	const asked = new Map<number, { from: number; first: number; ignored: number }>();

	const say = (message: ServerMessage) => {
		if (isOpen) peer.send(writeMessage(message));
	};

	const member: Member = {
		document: parts.document,
		edition,
		isListening: false,
		sendUpdate(update) {
			if (!isOpen) return;
			if (peer.unsentBytes > maxUnsentBytes) close('tooMuch');
			else peer.send(writeUpdate(update));
		},
		moveOn: () => close('newEdition')
	};
	const listening = member as { isListening: boolean };

	function close(reason: ReasonName): void {
		if (!isOpen) return;
		peer.close(reason);
		left();
	}

	function left(): void {
		if (!isOpen) return;
		isOpen = false;
		loaded.leave(member);
		parts.onLeft();
	}

	function breakOff(rule: string): void {
		parts.log('rule-broken', {
			club: loaded.memory.club,
			member: writer.member,
			device: writer.device,
			rule
		});
		close('brokenRules');
	}

	const document = () => loaded.memory.documents.get(parts.document) ?? null;

	function answerState(known: ReadonlyMap<number, number>): void {
		const open = document();
		if (!open) return close('newEdition');
		peer.send(writeState(open.updateAfter(known)));
		if (listening.isListening) return;
		listening.isListening = true;
		peer.send(writeStateVector(open.stateVector()));
	}

	/** Cuts what is too much at once; the device sends it again from there. */
	function withinLimits(structs: readonly Struct[]): { structs: Struct[]; cut: ReadonlySet<number> } {
		const later = new Map<number, number>();
		const kept: Struct[] = [];
		for (const struct of structs) {
			const isTooMuch =
				unanswered.entries >= limits.maxUnansweredEntries * 2 ||
				unanswered.bytes >= limits.maxUnansweredBytes * 2;
			if (isTooMuch || later.has(struct.client)) {
				if (!later.has(struct.client)) later.set(struct.client, struct.clock);
				continue;
			}
			unanswered.entries += 1;
			unanswered.bytes += struct.text.length;
			kept.push(struct);
		}
		for (const [client, from] of later) {
			asked.set(client, { from, first: from, ignored: 0 });
			say({ type: 'later', client, clock: from });
		}
		return { structs: kept, cut: new Set(later.keys()) };
	}

	async function takeUpdate(update: Uint8Array, isWhole: boolean): Promise<void> {
		const read = readStructs(update);
		if (typeof read === 'string') return breakOff(read);
		if (isWhole) hasStateOfDevice = true;
		const { structs, cut } = withinLimits(read);
		if (structs.length === 0) return;
		// A log that the device sends from where it was asked to is all that it has of it.
		const asAsked = new Set(
			structs.filter(({ client, clock }) => asked.get(client)?.from === clock).map(({ client }) => client)
		);
		const outcome = await parts.submit(
			{
				document: parts.document,
				writer,
				structs,
				isWhole: (client) => (isWhole || asAsked.has(client)) && !cut.has(client)
			},
			member
		);
		unanswered.entries -= structs.length;
		unanswered.bytes -= structs.reduce((sum, { text }) => sum + text.length, 0);
		answer(outcome);
	}

	function answer(outcome: Outcome): void {
		if (outcome.isMoved) return close('newEdition');
		if (outcome.broken) return breakOff(outcome.broken);
		if (outcome.accepted.length > 0) say({ type: 'accepted', ids: outcome.accepted, serverTime: clock() });
		for (const { id, reason } of outcome.refused) say({ type: 'refused', id, reason });
		for (const { client, clock: from } of outcome.incomplete) {
			asked.set(client, { from, first: from, ignored: 0 });
			say({ type: 'send-from', client, clock: from });
		}
		for (const verdict of outcome.others) answerVerdict(verdict);
		if (outcome.others.some(({ verdict }) => verdict === 'fetch-anew')) answerForeign();
	}

	function answerVerdict(verdict: Verdict): void {
		if (verdict.verdict === 'log-damaged') aboutLog('log-damaged', verdict.client);
		else if (verdict.verdict === 'gap') answerGap(verdict.client, verdict.clock, verdict.first);
	}

	function aboutLog(type: LogMessage['type'], client: number): void {
		say({ type, client, clock: document()?.logs.get(client)?.length ?? 0 });
	}

	function answerGap(client: number, from: number, first: number): void {
		// Its answer to our state vector is still to come and brings what is missing.
		if (!hasStateOfDevice) return;
		const before = asked.get(client);
		if (!before || before.from !== from) {
			asked.set(client, { from, first, ignored: 0 });
			aboutLog('send-from', client);
		} else if (first > before.first && before.ignored < maxIgnoredGaps) {
			before.ignored += 1;
		} else aboutLog('log-damaged', client);
	}

	/**
	 * It may be a device that holds what the server lost, or whose log another device has bound: it mends itself. What
	 * it sent before it heard is ignored; going on and on about it only ends the connection, which it may try again.
	 */
	function answerForeign(): void {
		foreignFrames += 1;
		if (foreignFrames > maxForeignFrames) return close('tooMuch');
		if (foreignFrames > 1) return;
		parts.log('foreign-structs', { club: loaded.memory.club, member: writer.member, device: writer.device });
		say({ type: 'fetch-anew' });
	}

	async function answerMine(message: MineMessage): Promise<void> {
		const seen = await loaded.look(async (change) => ({
			ids: await change.find(message.ids),
			record: await change.club(),
			highestId: message.highestId === undefined ? null : await change.idOfRow(message.highestRow)
		}));
		const lastRow = seen.record?.lastRow ?? 0;
		const isAnother = message.highestId !== undefined && seen.highestId !== message.highestId;
		if (message.highestRow > lastRow || (message.highestRow > 0 && isAnother)) {
			await parts.rowsMissing(message);
			if (!isOpen) return;
		}
		const bindings = document()?.bindings;
		say({
			type: 'known',
			ids: [...seen.ids.values()]
				.filter(({ audience }) => audience === parts.audience)
				.map(({ id, where }) => ({ id, where })),
			notYours: message.logs
				.map(({ client }) => client)
				.filter((client) => isAnothers(bindings?.get(client))),
			lastRow,
			serverTime: clock()
		});
	}

	const isAnothers = (binding: { member: string; device: string } | undefined) =>
		binding !== undefined && (binding.member !== writer.member || binding.device !== writer.device);

	function isFlooding(): boolean {
		const now = clock();
		const refilled = frames.left + ((now - frames.at) / 1_000) * framesPerSecond;
		frames = { left: Math.min(maxFramesAtOnce, refilled) - 1, at: now };
		return frames.left < 0;
	}

	async function handle(bytes: Uint8Array): Promise<void> {
		let frame;
		try {
			frame = readFrame(bytes);
		} catch {
			return breakOff('not-a-frame');
		}
		if (frame.type === 'state-vector') answerState(frame.known);
		else if (frame.type === 'update') await takeUpdate(frame.update, frame.isWhole);
		else if (frame.type === 'awareness') peer.send(bytes);
		else if (frame.type === 'message') await answerMine(frame.message);
	}

	loaded.join(member);
	return {
		receive(bytes) {
			if (!isOpen) return;
			if (isFlooding()) return close('tooMuch');
			handle(bytes).catch((error: unknown) => {
				parts.log('connection-failed', { club: loaded.memory.club, error: String(error) });
				close('serverError');
			});
		},
		left,
		close
	};
}
