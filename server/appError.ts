/** Everything that can go wrong in an answer to a person: code, status, a sentence, what to do. */

interface Problem {
	readonly status: number;
	readonly sentence: string;
	readonly whatToDo: string;
}

export const problems = {
	'signed-out': { status: 401, sentence: 'You are signed out.', whatToDo: 'Sign in, then try again.' },
	'sign-in-failed': {
		status: 400,
		sentence: 'That name and password do not go together.',
		whatToDo:
			'Check both and try again. If the password is forgotten, an officer of your club can give you a new link.'
	},
	'link-failed': {
		status: 400,
		sentence: 'This link or code does not work. It may be used already, or too old.',
		whatToDo: 'Check the numbers, or ask an officer of your club for a new one.'
	},
	'too-many-tries': {
		status: 429,
		sentence: 'There were too many tries.',
		whatToDo: 'Wait a quarter of an hour, then try again.'
	},
	'name-taken': {
		status: 409,
		sentence: 'This sign-in name cannot be used.',
		whatToDo: 'Choose another one. If it is your own, choose “I have an account” below.'
	},
	'weak-password': {
		status: 400,
		sentence: 'The password is too easy to guess.',
		whatToDo: 'Use at least 10 letters or numbers. Three unrelated words work well.'
	},
	'already-member': {
		status: 409,
		sentence: 'You are a member of this club already.',
		whatToDo: 'Go to the start page and open your club.'
	},
	'not-allowed': {
		status: 403,
		sentence: 'You may not do this.',
		whatToDo: 'Ask an officer of your club.'
	},
	'not-found': { status: 404, sentence: 'There is nothing here.', whatToDo: 'Go back and try another way.' },
	'not-understood': {
		status: 400,
		sentence: 'Something in the form is missing or too long.',
		whatToDo: 'Look at each box again.'
	},
	'region-too-fine': {
		status: 400,
		sentence: 'The region has a number in it, so it may be an address.',
		whatToDo: 'Write a county or a part of the country only.'
	},
	'last-officer': {
		status: 409,
		sentence: 'A club needs at least one officer.',
		whatToDo: 'Make another member an officer first.'
	},
	'too-many-numbers': {
		status: 429,
		sentence: 'This device has taken many bag numbers today.',
		whatToDo: 'Use up those it has, or try again tomorrow.'
	},
	'foreign-page': {
		status: 403,
		sentence: 'This was sent from another site’s page, so it was not done.',
		whatToDo: 'Open your club’s own page and try again.'
	},
	'server-problem': {
		status: 500,
		sentence: 'Something went wrong on the server.',
		whatToDo: 'Try again in a minute. If it goes on, tell whoever runs the server.'
	}
} as const satisfies Record<string, Problem>;

export type ProblemCode = keyof typeof problems;

/** Thrown by the server's own functions; `http/answer.ts` turns it into a response. */
export class AppError extends Error {
	readonly code: ProblemCode;
	/** For the log: ids and codes only, never anything personal. */
	readonly detail: string;
	constructor(code: ProblemCode, detail = '') {
		super(`${problems[code].sentence} ${problems[code].whatToDo}`);
		this.name = 'AppError';
		this.code = code;
		this.detail = detail;
	}
	get status(): number {
		return problems[this.code].status;
	}
}
