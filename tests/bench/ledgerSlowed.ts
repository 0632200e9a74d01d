/**
 * Slows a browser's pages and their workers. Chromium's own throttling is for pages alone ("only supported for pages,
 * not workers"), so the processes that run both are stopped and continued by turns, many times a second. Where a system
 * cannot do that (Windows), Chromium slows the page, and the figures say that the worker kept its speed.
 */
import { Worker } from 'node:worker_threads';
import type { Browser, CDPSession } from '@playwright/test';

export interface Slowed {
	readonly isWorkerSlowed: boolean;
	end(): Promise<void>;
}

/** How often the list of processes is asked for anew: a page may move to another. */
const lookAgainMs = 100;

/** @param times 1 = not at all */
export async function slowDown(browser: Browser, session: CDPSession, times: number): Promise<Slowed> {
	if (times === 1) return { isWorkerSlowed: false, end: async () => {} };
	if (process.platform === 'win32') {
		await session.send('Emulation.setCPUThrottlingRate', { rate: times });
		return { isWorkerSlowed: false, end: async () => {} };
	}
	const asking = await browser.newBrowserCDPSession();
	const thread = new Worker(new URL('./ledgerSlowedThread.ts', import.meta.url), { workerData: { times } });
	const tell = async () => {
		const { processInfo } = await asking.send('SystemInfo.getProcessInfo');
		thread.postMessage(processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id));
	};
	const slowing = new Promise((resolve) => thread.once('message', resolve));
	await tell();
	await slowing;
	const timer = setInterval(() => void tell().catch(() => {}), lookAgainMs);
	return {
		isWorkerSlowed: true,
		async end() {
			clearInterval(timer);
			const ended = new Promise((resolve) => thread.once('exit', resolve));
			thread.postMessage('end');
			await ended;
		}
	};
}
