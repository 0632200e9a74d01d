/** One task of the planning bench in a process of its own: `node planningNode.ts <task>` prints JSON. */
import loadHighs from 'highs';
import { planningTasks } from './planningMeasure.ts';

const prepare = planningTasks[process.argv[2] ?? ''];
if (!prepare) throw new Error(`node planningNode.ts ${Object.keys(planningTasks).join(' | ')}`);
const { on, run } = prepare(await loadHighs());
const bytesBefore = process.memoryUsage.rss();
const measured = run();
console.log(JSON.stringify({ on, measured, bytesBefore, bytesMost: process.memoryUsage.rss() }));
