/** Stops and continues processes by turns (see ledgerSlowed.ts). Told the list of their ids, then 'end'. */
import { parentPort, receiveMessageOnPort, workerData } from 'node:worker_threads';

const { times } = workerData as { times: number };
/** Short against a frame, so that it feels slow rather than jerky. */
const runMs = 2;
const port = parentPort;
if (!port) throw new Error('ledgerSlowedThread.ts is started by ledgerSlowed.ts');
const nothing = new Int32Array(new SharedArrayBuffer(4));
const wait = (ms: number) => Atomics.wait(nothing, 0, 0, ms);
let ids: readonly number[] = [];

function send(signal: 'SIGSTOP' | 'SIGCONT'): void {
	for (const id of ids) {
		try {
			process.kill(id, signal);
		} catch {
			// It has ended: the next list leaves it out.
		}
	}
}

for (;;) {
	const news = receiveMessageOnPort(port) as { message: readonly number[] | 'end' } | undefined;
	if (news?.message === 'end') break;
	if (news) {
		ids = news.message;
		port.postMessage('slowing');
	}
	send('SIGSTOP');
	wait(runMs * (times - 1));
	send('SIGCONT');
	wait(runMs);
}
process.exit(0);
