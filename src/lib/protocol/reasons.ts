/**
 * Why a socket is closed: one catalogue for both ends. y-websocket treats 4400 to 4499 as final; any other code it
 * tries again with back-off. Final codes are for what only a person can mend.
 */
export interface Reason {
	readonly code: number;
	/** Sentence for people: what happened and what to do. */
	readonly sentence: string;
	/** Whether the device may try again by itself. */
	readonly mayRetry: boolean;
}

export const reasons = {
	signedOut: {
		code: 4401,
		sentence: 'You are signed out on this device. What you wrote is kept here: sign in again to share it.',
		mayRetry: false
	},
	notAllowed: {
		code: 4403,
		sentence: 'You cannot open this part of the club’s record. Ask an officer if you should.',
		mayRetry: false
	},
	appTooOld: {
		code: 4426,
		sentence:
			'This app is too old for the club’s server. What you wrote is kept: take the update, then it is shared.',
		mayRetry: false
	},
	brokenRules: {
		code: 4422,
		sentence:
			'This device sent something the server does not take. What you wrote is kept here: save it to a file and tell an officer.',
		mayRetry: false
	},
	newEdition: {
		code: 4510,
		sentence: 'The club’s record has a new edition. It is being fetched.',
		mayRetry: true
	},
	tooMuch: { code: 4513, sentence: 'The server is busy. This device tries again by itself.', mayRetry: true },
	closing: {
		code: 4512,
		sentence: 'The server is being restarted. This device tries again by itself.',
		mayRetry: true
	},
	serverError: {
		code: 4500,
		sentence: 'Something went wrong on the server. This device tries again by itself.',
		mayRetry: true
	}
} as const satisfies Record<string, Reason>;

export type ReasonName = keyof typeof reasons;
