/**
 * `npm run bench -- <name> [--json]`: measures, here and now, what the README's figures come from. Nothing is asserted
 * and nothing kept: another machine, or a busy one, gives other figures.
 */
import { cpus, loadavg } from 'node:os';

/** What a bench gives: plain data for `--json`, lines for people. */
export interface Bench {
	run(tell: (step: string) => void): Promise<object>;
	lines(figures: object): string[];
}

const benches: Readonly<Record<string, () => Promise<{ bench: Bench }>>> = {
	ledger: () => import('./ledger.ts')
};

const [name = '', ...options] = process.argv.slice(2).filter((one) => one !== '--json');
const isJson = process.argv.includes('--json');
const load = Object.hasOwn(benches, name) ? benches[name] : undefined;
if (!load || options.length > 0) {
	console.error(`Name one bench: ${Object.keys(benches).join(', ')}. With --json it prints plain data.`);
	process.exit(2);
}
const { bench } = await load();
const machine = () => ({
	node: process.version,
	processor: cpus()[0]?.model.trim() ?? 'not known',
	cores: cpus().length,
	// Above the number of cores, others were working too and times are longer than they need be.
	loadAverage: loadavg()[0]
});
const before = machine();
const figures = await bench.run((step) => console.error(step));
if (isJson)
	console.log(JSON.stringify({ bench: name, machine: before, loadAverageAfter: loadavg()[0], ...figures }));
else {
	console.log(
		`${before.processor}, ${before.cores} cores, Node ${before.node}, load ${before.loadAverage?.toFixed(1)}`
	);
	for (const line of bench.lines(figures)) console.log(line);
}
process.exit(0);
