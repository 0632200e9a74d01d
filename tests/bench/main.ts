/**
 * `npm run bench -- <name> [--json]`: measures, here and now, what the README's figures come from. Nothing is asserted
 * and nothing kept: another machine, or a busy one, gives other figures.
 */
import { cpus, loadavg, totalmem } from 'node:os';

/** A figure that was aimed for, beside the measured one; null = it could not be measured. */
export interface Aim {
	readonly what: string;
	/** At most this. */
	readonly limit: number;
	readonly unit: string;
	readonly measured: number | null;
	readonly isReached: boolean;
}

/** What a bench gives: plain data for `--json`, lines for people. */
export interface Bench {
	run(tell: (step: string) => void): Promise<object>;
	lines(figures: object): string[];
	aims?(figures: object): Aim[];
}

const benches: Readonly<Record<string, () => Promise<{ bench: Bench }>>> = {
	genetics: () => import('./genetics.ts'),
	planning: () => import('./planning.ts'),
	ledger: () => import('./ledger.ts'),
	strategies: () => import('./strategies.ts')
};

const [name = '', ...options] = process.argv.slice(2).filter((one) => one !== '--json');
const isJson = process.argv.includes('--json');
const chosen = Object.hasOwn(benches, name) ? benches[name] : undefined;
if (!chosen || options.length > 0) {
	console.error(`Name one bench: ${Object.keys(benches).join(', ')}. With --json it prints plain data.`);
	process.exit(2);
}
const { bench } = await chosen();
const machine = () => ({
	node: process.version,
	processor: cpus()[0]?.model.trim() ?? 'not known',
	cores: cpus().length,
	memoryBytes: totalmem(),
	// Above the number of cores, others were working too and times are longer than they need be.
	loadAverage: loadavg()[0]
});
const before = machine();
const date = new Date().toISOString();
const figures = await bench.run((step) => console.error(step));
const aims = bench.aims?.(figures) ?? [];
const end = { loadAverageAfter: loadavg()[0], seconds: Math.round(performance.now() / 1_000) };
if (isJson) console.log(JSON.stringify({ bench: name, date, machine: before, ...end, aims, ...figures }));
else {
	const load = `load ${before.loadAverage?.toFixed(1)} before, ${end.loadAverageAfter?.toFixed(1)} after`;
	console.log(
		`${date}: ${before.processor}, ${before.cores} cores, Node ${before.node}, ${load}, ${end.seconds} s`
	);
	for (const line of bench.lines(figures)) console.log(line);
	if (aims.length > 0) console.log('Aims:');
	for (const { what, limit, unit, measured, isReached } of aims) {
		const got = measured === null ? 'not measured' : `${measured.toPrecision(3)} ${unit}`;
		console.log(`  ${isReached ? 'reached' : 'not reached'}: ${what}: ${got}, aim at most ${limit} ${unit}`);
	}
}
process.exit(0);
