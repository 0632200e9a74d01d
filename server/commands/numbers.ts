/**
 * `npm run -s numbers -- QUESTION < input.json > answer.json`: the same functions as the screens, for those who script
 * or check. Exit 0 with the answer on standard output; else exit 2 with `{ "problems": [...] }` there, all of them,
 * and one sentence each on standard error.
 */
import { text } from 'node:stream/consumers';
import { diversity } from './numbers/diversity.ts';
import { groups } from './numbers/groups.ts';
import { inbreeding } from './numbers/inbreeding.ts';
import { kinship } from './numbers/kinship.ts';
import { loss } from './numbers/loss.ts';
import { plan } from './numbers/plan.ts';
import type { Answer, Problem, Question } from './numbers/question.ts';
import { strategies } from './numbers/strategies.ts';

const questions: Readonly<Record<string, Question>> = {
	inbreeding,
	kinship,
	diversity,
	groups,
	plan,
	strategies,
	loss
};

function refuse(code: string, sentence: string): { problems: Problem[] } {
	return { problems: [{ code, ids: [], sentence }] };
}

async function answerTo(args: readonly string[]): Promise<Answer> {
	const [name = ''] = args;
	const names = Object.keys(questions).join(', ');
	if (args.length !== 1 || !Object.hasOwn(questions, name))
		return refuse('question', `Name one question after the two dashes: ${names}.`);
	let input: unknown;
	try {
		// A byte order mark, which some editors write, is no part of the text.
		input = JSON.parse((await text(process.stdin)).replace(/^\uFEFF/, ''));
	} catch (error) {
		const why = error instanceof Error ? error.message : String(error);
		return refuse('notJson', `Standard input is not JSON: ${why}.`);
	}
	return await questions[name]!(input);
}

/** Returns when all is written, however slowly it is read; whoever stops reading early has what they wanted. */
function write(stream: NodeJS.WriteStream, given: string): Promise<void> {
	return new Promise((resolve, reject) => {
		stream.on('error', (error: NodeJS.ErrnoException) =>
			error.code === 'EPIPE' ? resolve() : reject(error)
		);
		stream.write(given, () => resolve());
	});
}

const result = await answerTo(process.argv.slice(2));
if ('problems' in result) {
	process.exitCode = 2;
	await write(process.stderr, result.problems.map(({ sentence }) => `${sentence}\n`).join(''));
	await write(process.stdout, `${JSON.stringify({ problems: result.problems })}\n`);
} else await write(process.stdout, `${JSON.stringify(result.answer)}\n`);
