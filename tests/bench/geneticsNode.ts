/**
 * One task of the genetics bench in a process of its own, so that its memory is its own: `node --expose-gc
 * geneticsNode.ts <task>` prints JSON.
 */
import { readFileSync } from 'node:fs';
import { tasks } from './geneticsMeasure.ts';

const prepare = tasks[process.argv[2] ?? ''];
if (!prepare || !globalThis.gc)
	throw new Error(`node --expose-gc geneticsNode.ts ${Object.keys(tasks).join(' | ')}`);
const { on, run } = prepare();
globalThis.gc();
const bytesBefore = process.memoryUsage.rss();
const measured = run();
// What `resourceUsage` tells begins with the memory of the process that started this one.
const status = process.platform === 'linux' ? readFileSync('/proc/self/status', 'utf8') : '';
const kilobytes = /VmHWM:\s+(\d+) kB/.exec(status)?.[1];
const bytesMost = kilobytes === undefined ? null : Number(kilobytes) * 1024;
console.log(JSON.stringify({ on, measured, bytesBefore, bytesMost }));
