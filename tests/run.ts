/**
 * Runs everything that checks the project, part by part, each with its budget, and ends with `N passed, N failed`.
 * A skipped test counts as failed. `node tests/run.ts checks unit` runs only the parts named.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { chromiumOrInstall } from './helpers/findChromium.ts';

interface Outcome {
	passed: number;
	failed: number;
}
interface Part {
	readonly name: string;
	readonly budgetMinutes: number;
	run(): Outcome;
}

const root = join(import.meta.dirname, '..');
const artifacts = join(root, '.artifacts');
const slow = ['server', 'contract', 'fuzz', 'faults'];

function command(name: string, args: readonly string[], env: Record<string, string> = {}): boolean {
	const result = spawnSync(name, args, { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } });
	return result.status === 0;
}

function script(name: string): Outcome {
	return command('npm', ['run', '-s', name]) ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

function sum(outcomes: readonly Outcome[]): Outcome {
	return outcomes.reduce(
		(all, one) => ({ passed: all.passed + one.passed, failed: all.failed + one.failed }),
		{
			passed: 0,
			failed: 0
		}
	);
}

/** Reads a report; a run that left none, ran nothing or failed outside its tests counts as one failure. */
function counted(file: string, ok: boolean, read: (report: unknown) => Outcome): Outcome {
	if (!existsSync(file)) return { passed: 0, failed: 1 };
	const outcome = read(JSON.parse(readFileSync(file, 'utf8')));
	const unexplained = (!ok && outcome.failed === 0) || outcome.passed + outcome.failed === 0;
	return unexplained ? { ...outcome, failed: outcome.failed + 1 } : outcome;
}

function vitest(name: string, args: readonly string[]): Outcome {
	const file = join(artifacts, `${name}.json`);
	const ok = command('vitest', [
		'run',
		'--reporter=default',
		'--reporter=json',
		`--outputFile.json=${file}`,
		...args
	]);
	return counted(file, ok, (report) => {
		const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = report as Record<
			string,
			number
		>;
		return {
			passed: numPassedTests ?? 0,
			failed: (numFailedTests ?? 0) + (numPendingTests ?? 0) + (numTodoTests ?? 0)
		};
	});
}

function browser(): Outcome {
	const chromium = chromiumOrInstall();
	if (!chromium) return { passed: 0, failed: 1 };
	const built = script('build');
	if (built.failed) return built;
	const file = join(artifacts, 'browser.json');
	const ok = command(
		'playwright',
		['test', '--config', 'tests/e2e/playwright.config.ts', '--reporter=list,json'],
		{
			KITHLINE_CHROMIUM: chromium,
			PLAYWRIGHT_JSON_OUTPUT_FILE: file
		}
	);
	return counted(file, ok, (report) => {
		const { expected, unexpected, flaky, skipped } = (report as { stats: Record<string, number> }).stats;
		return { passed: expected ?? 0, failed: (unexpected ?? 0) + (flaky ?? 0) + (skipped ?? 0) };
	});
}

const parts: readonly Part[] = [
	{ name: 'checks', budgetMinutes: 3, run: () => sum([script('check'), script('lint')]) },
	{
		name: 'unit',
		budgetMinutes: 4,
		run: () =>
			vitest(
				'unit',
				slow.flatMap((folder) => ['--exclude', `tests/${folder}/**`])
			)
	},
	{
		name: 'server',
		budgetMinutes: 5,
		run: () =>
			vitest(
				'server',
				slow.map((folder) => `tests/${folder}/`)
			)
	},
	{ name: 'browser', budgetMinutes: 13, run: browser }
];

const named = process.argv.slice(2);
const unknown = named.filter((name) => !parts.some((part) => part.name === name));
if (unknown.length) {
	console.error(
		`There is no part called ${unknown.join(', ')}: name some of ${parts.map((part) => part.name).join(', ')}.`
	);
	process.exit(2);
}

rmSync(artifacts, { recursive: true, force: true });
mkdirSync(artifacts, { recursive: true });
const lines: string[] = [];
let total: Outcome = { passed: 0, failed: 0 };
for (const part of parts) {
	if (named.length && !named.includes(part.name)) continue;
	const start = performance.now();
	const outcome = part.run();
	const minutes = ((performance.now() - start) / 60_000).toFixed(1);
	lines.push(
		`${part.name}: ${outcome.passed} ok, ${outcome.failed} not, ${minutes} of ${part.budgetMinutes} minutes`
	);
	total = sum([total, outcome]);
}
console.log(`\n${lines.join('\n')}\n${total.passed} passed, ${total.failed} failed`);
process.exit(total.failed === 0 ? 0 : 1);
