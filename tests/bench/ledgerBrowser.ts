/** A new device in Chromium against the real server on loopback: from opening the address to the lines on the screen. */
import { chromium, type CDPSession, type Page } from '@playwright/test';
import { chromiumArgs } from '#tests/helpers/findChromium.ts';
import type { FilledClub } from './ledgerClub.ts';
import { slowDown } from './ledgerSlowed.ts';

export interface BrowserFigures {
	/** 1 = at full speed. */
	readonly slowedTimes: number;
	/** A loop on the page, slowed against not slowed: how much slower the page really was. */
	readonly slowedByLoop: number;
	/** Chromium itself slows pages only; where processes can be stopped and continued, the worker is slowed too. */
	readonly isWorkerSlowed: boolean;
	/** From opening the address, nothing kept, until a line is on the screen: the record may still be coming in. */
	readonly firstUsableScreenMs: number;
	/** The same, until the whole record is in: nothing on the screen changes any more. */
	readonly wholeRecordMs: number;
	/** The same page again, with what the device keeps. */
	readonly secondOpeningMs: number;
	/** Longest time for which the page could not answer a finger. */
	readonly longestBlockedFrameMs: number;
	readonly pageHeapBytes: number;
	/** Null where the browser does not tell. */
	readonly workerHeapBytes: number | null;
}

const patienceMs = 120_000;
/** Longer than any pause while a record comes in, also on a slowed device. */
const quietMs = 8_000;

export async function inBrowser(
	{ club, cookies }: FilledClub,
	asked: { readonly executablePath: string; readonly address: string; readonly slowedTimes: number }
): Promise<BrowserFigures> {
	const { executablePath, address, slowedTimes } = asked;
	const browser = await chromium.launch({ executablePath, args: chromiumArgs });
	try {
		const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
		await context.addCookies(cookies.map((cookie) => ({ ...cookie, url: address, httpOnly: true })));
		await context.addInitScript(() => {
			const seen = { longest: 0, changedAt: 0 };
			Object.assign(globalThis, { benchSeen: seen });
			const changes = new MutationObserver(() => (seen.changedAt = performance.now()));
			changes.observe(document, { subtree: true, childList: true, characterData: true });
			new PerformanceObserver((list) => {
				for (const entry of list.getEntries()) seen.longest = Math.max(seen.longest, entry.duration);
			}).observe({ type: 'longtask', buffered: true });
		});
		const page = await context.newPage();
		const session = await context.newCDPSession(page);
		await session.send('Performance.enable');
		const workers = watchWorkers(session);
		await session.send('Target.setAutoAttach', {
			autoAttach: true,
			waitForDebuggerOnStart: false,
			flatten: false
		});
		const plainLoopMs = await loopMs(page);
		const slowed = await slowDown(browser, session, slowedTimes);
		try {
			const slowedByLoop = (await loopMs(page)) / plainLoopMs;
			const open = async () => {
				const start = performance.now();
				await page.goto(`${address}/c/${club}/lines`, { timeout: patienceMs });
				// The sheet for printing names the lines too, and is not on the screen.
				const line = page.getByText('Line 1', { exact: true }).filter({ visible: true }).first();
				await line.waitFor({ timeout: patienceMs });
				return performance.now() - start;
			};
			const firstUsableScreenMs = await open();
			const wholeRecordMs = await lastChange(page);
			const longestBlockedFrameMs = await longestBlocked(page);
			const { metrics } = await session.send('Performance.getMetrics');
			const pageHeapBytes = metrics.find((one) => one.name === 'JSHeapUsedSize')?.value ?? 0;
			const workerHeapBytes = await workers.heapBytes();
			const secondOpeningMs = await open();
			const { isWorkerSlowed } = slowed;
			return {
				slowedTimes,
				slowedByLoop,
				isWorkerSlowed,
				firstUsableScreenMs,
				wholeRecordMs,
				secondOpeningMs,
				longestBlockedFrameMs,
				pageHeapBytes,
				workerHeapBytes
			};
		} finally {
			await slowed.end();
		}
	} finally {
		await browser.close();
	}
}

/** When the screen changed last, ms after the page was asked for, once it has been quiet for a while. */
async function lastChange(page: Page): Promise<number> {
	const isQuiet = (quiet: number) => {
		const { changedAt } = (globalThis as unknown as { benchSeen: { changedAt: number } }).benchSeen;
		return performance.now() - changedAt > quiet ? changedAt : false;
	};
	const found = await page.waitForFunction(isQuiet, quietMs, { timeout: patienceMs, polling: 200 });
	return (await found.jsonValue()) || 0;
}

function longestBlocked(page: Page): Promise<number> {
	return page.evaluate(() => (globalThis as unknown as { benchSeen: { longest: number } }).benchSeen.longest);
}

/** A loop of sums: nothing but the processor has a part in it. The quickest of three, as others may be at work. */
async function loopMs(page: Page): Promise<number> {
	const once = () =>
		page.evaluate(() => {
			const start = performance.now();
			let sum = 0;
			for (let i = 0; i < 30_000_000; i++) sum = (sum * 31 + i) | 0;
			return sum === 0.5 ? 0 : performance.now() - start;
		});
	return Math.min(await once(), await once(), await once());
}

/** Asks the page's dedicated workers for their heap, as far as the browser lets itself be asked. */
function watchWorkers(session: CDPSession) {
	const ids = new Set<string>();
	const answers = new Map<number, (answer: { result?: { usedSize?: number } }) => void>();
	let asked = 0;
	const ask = (sessionId: string, method: string) =>
		new Promise<{ result?: { usedSize?: number } }>((resolve) => {
			asked += 1;
			answers.set(asked, resolve);
			const message = JSON.stringify({ id: asked, method, params: {} });
			session.send('Target.sendMessageToTarget', { sessionId, message }).catch(() => resolve({}));
			setTimeout(() => resolve({}), 10_000).unref();
		});
	session.on('Target.receivedMessageFromTarget', ({ message }) => {
		const answer = JSON.parse(message) as { id?: number; result?: { usedSize?: number } };
		if (answer.id !== undefined) answers.get(answer.id)?.(answer);
	});
	session.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => {
		if (targetInfo.type === 'worker') ids.add(sessionId);
	});
	return {
		async heapBytes() {
			const used = await Promise.all([...ids].map((id) => ask(id, 'Runtime.getHeapUsage')));
			const known = used.flatMap(({ result }) => (result?.usedSize === undefined ? [] : [result.usedSize]));
			return known.length > 0 ? known.reduce((sum, one) => sum + one, 0) : null;
		}
	};
}
