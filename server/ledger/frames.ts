/** Frames of a sync socket: y-websocket's message types and our own (protocol/messages.ts). */
import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import {
	kithlineMessage,
	type DeviceMessage,
	type LogPosition,
	type ServerMessage
} from '#protocol/messages.ts';

const sync = 0;
const awareness = 1;
const queryAwareness = 3;
const syncStep1 = 0;
const syncStep2 = 1;
const syncUpdate = 2;

export type Frame =
	| { readonly type: 'state-vector'; readonly known: ReadonlyMap<number, number> }
	| { readonly type: 'update'; readonly update: Uint8Array; readonly isWhole: boolean }
	| { readonly type: 'awareness' }
	| { readonly type: 'nothing' }
	| { readonly type: 'message'; readonly message: DeviceMessage };

function readStateVector(bytes: Uint8Array): Map<number, number> {
	const decoder = decoding.createDecoder(bytes);
	const known = new Map<number, number>();
	const size = decoding.readVarUint(decoder);
	for (let read = 0; read < size; read += 1) {
		const client = decoding.readVarUint(decoder);
		known.set(client, decoding.readVarUint(decoder));
	}
	return known;
}

function isPosition(value: unknown): value is LogPosition {
	const { client, clock } = (value ?? {}) as Partial<LogPosition>;
	return Number.isSafeInteger(client) && Number.isSafeInteger(clock);
}

function readMessage(text: string): DeviceMessage {
	const message = JSON.parse(text) as Partial<DeviceMessage> | null;
	const isMine =
		message?.type === 'mine' &&
		Array.isArray(message.ids) &&
		message.ids.every((id) => typeof id === 'string') &&
		Array.isArray(message.logs) &&
		message.logs.every(isPosition) &&
		Number.isSafeInteger(message.highestRow) &&
		(message.highestId === undefined || typeof message.highestId === 'string');
	if (!isMine) throw new TypeError('readFrame requires a message of the protocol');
	return message as DeviceMessage;
}

/** @throws on anything that is not a frame of the protocol */
export function readFrame(bytes: Uint8Array): Frame {
	const decoder = decoding.createDecoder(bytes);
	switch (decoding.readVarUint(decoder)) {
		case sync: {
			const step = decoding.readVarUint(decoder);
			const content = decoding.readVarUint8Array(decoder);
			if (step === syncStep1) return { type: 'state-vector', known: readStateVector(content) };
			if (step === syncStep2) return { type: 'update', update: content, isWhole: true };
			if (step === syncUpdate) return { type: 'update', update: content, isWhole: false };
			throw new TypeError('readFrame requires a known sync message');
		}
		case awareness:
			return { type: 'awareness' };
		case queryAwareness:
			return { type: 'nothing' };
		case kithlineMessage:
			return { type: 'message', message: readMessage(decoding.readVarString(decoder)) };
		default:
			throw new TypeError('readFrame requires a known type of frame');
	}
}

function frame(write: (encoder: encoding.Encoder) => void): Uint8Array {
	const encoder = encoding.createEncoder();
	write(encoder);
	return encoding.toUint8Array(encoder);
}

function syncFrame(step: number, content: Uint8Array): Uint8Array {
	return frame((encoder) => {
		encoding.writeVarUint(encoder, sync);
		encoding.writeVarUint(encoder, step);
		encoding.writeVarUint8Array(encoder, content);
	});
}

export const writeStateVector = (stateVector: Uint8Array) => syncFrame(syncStep1, stateVector);
/** The answer to a state vector: everything that lies after it. */
export const writeState = (update: Uint8Array) => syncFrame(syncStep2, update);
export const writeUpdate = (update: Uint8Array) => syncFrame(syncUpdate, update);
export const writeMessage = (message: ServerMessage) =>
	frame((encoder) => {
		encoding.writeVarUint(encoder, kithlineMessage);
		encoding.writeVarString(encoder, JSON.stringify(message));
	});
