/** What the environment says, read once and checked. Nothing else reads `process.env`. */
import { resolve } from 'node:path';

/** As in package.json, which the built server does not carry. */
export const appVersion = '0.1.0';

export interface Config {
	/** TCP port; 0 = any free one. */
	readonly port: number;
	/** Address to listen on; null = every address of this machine. */
	readonly host: string | null;
	/** Folder that holds everything to keep and to back up. */
	readonly dataFolder: string;
	readonly databaseFile: string;
	/** The address people type, without a path; null = taken from each request. */
	readonly origin: string | null;
	/** Whether a proxy in front says who is calling and by which protocol. */
	readonly trustProxy: boolean;
	/** Bytes of one upload: a file of entries that an officer brings. */
	readonly bodyLimitBytes: number;
	/** How long a sign-in lasts without use. */
	readonly sessionDays: number;
	/** True for the throw-away demonstration: no first officer is asked for. */
	readonly demo: boolean;
}

/** The environment says something that cannot be used: one sentence for each point. */
export class ConfigProblem extends Error {
	readonly problems: readonly string[];
	constructor(problems: readonly string[]) {
		super(problems.join('\n'));
		this.name = 'ConfigProblem';
		this.problems = problems;
	}
}

/** Every variable that `readConfig` looks at, with what it is for; README lists the same. */
export const variables = {
	PORT: 'port to listen on (4321)',
	HOST: 'address to listen on (every address of this machine)',
	KITHLINE_DATA: 'folder for everything that is kept (./data)',
	ORIGIN: 'the address people type, for example https://lines.example.org',
	TRUST_PROXY: '1 when a proxy in front adds x-forwarded-proto, -host and -for',
	BODY_SIZE_LIMIT: 'bytes of one upload (16777216)',
	KITHLINE_SESSION_DAYS: 'days that a sign-in lasts without use (60)',
	KITHLINE_DEMO: '1 for the throw-away demonstration'
} as const;

type Environment = Readonly<Record<string, string | undefined>>;

function wholeNumber(
	env: Environment,
	name: keyof typeof variables,
	otherwise: number,
	range: readonly [number, number],
	problems: string[]
): number {
	const text = env[name];
	if (text === undefined || text === '') return otherwise;
	const value = Number(text);
	if (/^\d+$/.test(text) && value >= range[0] && value <= range[1]) return value;
	problems.push(`${name} must be a whole number from ${range[0]} to ${range[1]}, it is "${text}".`);
	return otherwise;
}

function yesOrNo(env: Environment, name: keyof typeof variables, problems: string[]): boolean {
	const text = env[name] ?? '';
	if (text === '' || text === '0') return false;
	if (text === '1') return true;
	problems.push(`${name} must be 1 or 0, it is "${text}".`);
	return false;
}

function originOf(text: string | undefined, problems: string[]): string | null {
	if (text === undefined || text === '') return null;
	const url = URL.canParse(text) ? new URL(text) : null;
	if (url && /^https?:$/.test(url.protocol) && url.origin === text.replace(/\/$/, '')) return url.origin;
	problems.push(
		`ORIGIN must be an address such as https://lines.example.org without a path, it is "${text}".`
	);
	return null;
}

/**
 * Reads and checks the environment.
 * @throws ConfigProblem with one sentence for each variable that cannot be used
 */
export function readConfig(env: Environment = process.env): Config {
	const problems: string[] = [];
	const dataFolder = resolve(env.KITHLINE_DATA || 'data');
	const config: Config = {
		port: wholeNumber(env, 'PORT', 4321, [0, 65_535], problems),
		host: env.HOST || null,
		dataFolder,
		databaseFile: resolve(dataFolder, 'kithline.sqlite'),
		origin: originOf(env.ORIGIN, problems),
		trustProxy: yesOrNo(env, 'TRUST_PROXY', problems),
		bodyLimitBytes: wholeNumber(env, 'BODY_SIZE_LIMIT', 16 * 1024 * 1024, [1024, 2 ** 31], problems),
		sessionDays: wholeNumber(env, 'KITHLINE_SESSION_DAYS', 60, [1, 365], problems),
		demo: yesOrNo(env, 'KITHLINE_DEMO', problems)
	};
	if (problems.length > 0) throw new ConfigProblem(problems);
	return config;
}

/** What was decided, line by line, for the console. Holds no secret. */
export function describeConfig(config: Config): string[] {
	return [
		`Records are kept in ${config.dataFolder}`,
		config.origin
			? `People reach this club server at ${config.origin}`
			: 'The address people use is taken from each request (ORIGIN is not set)',
		config.trustProxy ? 'A proxy in front is trusted to say who is calling' : 'No proxy in front is trusted',
		`A sign-in lasts ${config.sessionDays} days without use`
	];
}
