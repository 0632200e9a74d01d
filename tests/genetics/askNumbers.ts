/** Asks `npm run numbers` as those outside do: a process, JSON in, JSON out. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { expect } from 'vitest';

const command = join(import.meta.dirname, '../../server/commands/numbers.ts');

export interface Told {
	readonly code: number | null;
	readonly said: string;
	readonly answer: Answer;
}

/** Whichever of these the question gives. */
interface Answer {
	readonly inbreeding: Record<string, number>;
	readonly kinship: number[];
	readonly answers: number[];
	readonly problems: { code: string; ids: string[]; sentence: string }[];
}

/** Runs the command on this input; text is given as it stands. */
export function ask(question: readonly string[], input: unknown): Promise<Told> {
	return new Promise((resolve, reject) => {
		const child = spawn(process.execPath, [command, ...question]);
		let out = '';
		let said = '';
		child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
		child.stderr.setEncoding('utf8').on('data', (text: string) => (said += text));
		child.on('error', reject);
		child.on('close', (code) => resolve({ code, said, answer: JSON.parse(out) as Answer }));
		child.stdin.end(typeof input === 'string' ? input : JSON.stringify(input));
	});
}

/** What must be mended, as code and ids; also that a sentence was said for each. */
export async function problemsOf(question: string, input: unknown): Promise<[string, string[]][]> {
	const { code, said, answer } = await ask([question], input);
	expect(code).toBe(2);
	const { problems } = answer;
	expect(said).toBe(problems.map(({ sentence }) => `${sentence}\n`).join(''));
	for (const { sentence } of problems) expect(sentence).toMatch(/^[^\n]+[.]$/);
	return problems.map(({ code, ids }) => [code, ids]);
}
