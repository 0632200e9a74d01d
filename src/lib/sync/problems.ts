/** What can go wrong on a device, each with its sentence for people: what is wrong and what to do. */
import { reasons } from '#protocol/reasons.ts';

export const deviceProblems = {
	'storage-full':
		'This device has no room left, so what you just wrote is not kept yet. Free some space and press the button again.',
	'storage-failed':
		'This browser could not keep what you just wrote. Leave the page open and press the button again. If it goes on, save to a file.',
	'storage-put-back':
		'This browser threw away what the app kept here while it was open. What was not yet shared has been put back from memory. Save it to a file to be safe.',
	'storage-evicted':
		'This browser threw away what the app kept here. What was shared with the club comes back with the signal. What was not shared is gone from this browser: load your saved file if you have one.',
	'volume-damaged': 'A part of the club’s record arrived damaged. It is being fetched again.',
	'no-audience':
		'Something you wrote is for people you no longer share with. It is kept here: save it to a file or remove it.',
	'clock-wrong':
		'The clock of this device is wrong. Set it to the right time. What you write is kept in the right order all the same.',
	aside:
		'This device holds entries that the club has lost. An officer can bring them back: save them to a file.',
	'too-long': 'This is too long to be kept as one note. Make it shorter, or write it as two notes.',
	'too-many': 'This is too much to write in one go. Do it in two or more parts.',
	'file-not-ours':
		'This is not a file that this app saved. Choose the file that was saved from “Not yet shared”.',
	'file-other-club': 'This file belongs to another club. Open that club first, then load it there.',
	'not-officer': 'Only an officer can bring these back. Save them to a file and give the file to an officer.',
	'no-signal': 'The club’s server cannot be reached. Try again when there is a signal.',
	'signed-out': reasons.signedOut.sentence,
	'not-allowed': reasons.notAllowed.sentence,
	'app-too-old': reasons.appTooOld.sentence,
	'broken-rules': reasons.brokenRules.sentence
} as const;

export type DeviceProblemCode = keyof typeof deviceProblems;

export interface DeviceProblem {
	readonly code: DeviceProblemCode;
	readonly sentence: string;
}

export function deviceProblem(code: DeviceProblemCode): DeviceProblem {
	return { code, sentence: deviceProblems[code] };
}

/** Thrown to the caller of a write, so that a screen can keep what was typed and show the sentence. */
export class DeviceError extends Error {
	readonly code: DeviceProblemCode;
	constructor(code: DeviceProblemCode, cause?: unknown) {
		super(deviceProblems[code], { cause });
		this.name = 'DeviceError';
		this.code = code;
	}
}
