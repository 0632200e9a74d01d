/** The app's frame on a phone: opens without a signal, says what it has, takes an update only when asked. */
import { chromium, expect, test, type Page } from '@playwright/test';
import { createServer, request, type Server } from 'node:http';
import { join } from 'node:path';
import { axeFindings } from '#tests/helpers/axeFindings.ts';
import { chromiumArgs, chromiumThere } from '#tests/helpers/findChromium.ts';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';
import { until } from '#tests/helpers/until.ts';

const port = 4375;
const doorPort = 4376;
const door = `http://localhost:${doorPort}`;
let server: RunningServer | undefined;
let gate: Server | undefined;
/** Added to the service worker's file: another text is another build to the browser. */
let build = '';

test.use({ baseURL: door });
test.beforeAll(async () => {
	server = await startServer({
		node: ['server/commands/demo.ts'],
		cwd: join(import.meta.dirname, '../..'),
		env: { PORT: String(port) },
		readyUrl: `http://localhost:${port}/healthz`
	});
	gate = createServer((asked, answer) => {
		const passed = request(
			{
				port,
				path: asked.url,
				method: asked.method,
				headers: { ...asked.headers, 'accept-encoding': 'identity' }
			},
			(given) => {
				const isWorker = asked.url === '/service-worker.js';
				const { 'content-length': _length, etag: _etag, ...headers } = given.headers;
				answer.writeHead(given.statusCode ?? 500, isWorker ? headers : given.headers);
				given.on('data', (data: Buffer) => answer.write(data));
				given.on('end', () => answer.end(isWorker ? build : undefined));
			}
		);
		passed.on('error', () => answer.destroy());
		asked.pipe(passed);
	}).listen(doorPort);
});
test.afterAll(async () => {
	gate?.close();
	await server?.stop();
});

/** Signs in as a keeper of the demo club. @returns the club's address */
async function signIn(page: Page, at = door): Promise<string> {
	await page.goto(`${at}/sign-in`);
	const [, signInName = '', password = ''] =
		/\(keeper of .*name "([^"]+)", password "([^"]+)"/.exec(server?.output() ?? '') ?? [];
	await page.getByLabel(/name/i).first().fill(signInName);
	await page
		.getByLabel(/password/i)
		.first()
		.fill(password);
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL((url) => url.pathname.startsWith('/c/'));
	return new URL(page.url()).pathname.split('/').slice(0, 3).join('/');
}

const kept = (page: Page) => page.evaluate(() => navigator.serviceWorker.controller !== null);

test('after one visit any page of the club opens without a signal', async ({ page, context }) => {
	const club = await signIn(page);
	await page.goto(`${club}/ready`);
	await expect(page.getByText('The app is kept on this device.')).toBeVisible();
	await context.setOffline(true);
	await page.goto(`${club}/help`);
	await expect(page.getByRole('heading', { name: 'On the home screen' })).toBeVisible();
	await page.reload();
	await expect(page.getByRole('heading', { name: 'What the words mean' })).toBeVisible();
	await expect(page.getByText('no signal; what you write is kept here')).toBeVisible();
	await page.goto(`${club}/no-such-thing`);
	await expect(page.getByRole('heading', { name: 'There is no such page.' })).toBeVisible();
	await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
	await page.goto('/');
	await expect(page).toHaveURL(new RegExp(`${club}/`));
});

for (const colorScheme of ['light', 'dark'] as const) {
	test(`the pages of the frame have no findings, ${colorScheme}`, async ({ page }) => {
		await page.emulateMedia({ colorScheme });
		// Straight to the server: the door has no way for the sockets, and the first visit waits for the record a while.
		const at = `http://localhost:${port}`;
		const club = await signIn(page, at);
		for (const [path, title] of [
			['ready', 'Ready for the hall'],
			['help', 'Help'],
			['more', 'More'],
			['no-such-thing', 'There is no such page.']
		] as const) {
			await page.goto(`${at}${club}/${path}`);
			await expect(page.getByRole('heading', { name: title, exact: true })).toBeVisible();
			expect(await axeFindings(page), path).toEqual([]);
		}
	});
}

test('an update waits, is not taken while something is typed, and is taken by a press', async ({ page }) => {
	const club = await signIn(page);
	await page.goto(`${club}/help`);
	await until('the app to be kept', () => kept(page));
	build = `\n// ${test.info().testId}`;
	await page.evaluate(async () => {
		document.body.append(document.createElement('textarea'));
		await (await navigator.serviceWorker.getRegistration())?.update();
	});
	await page.locator('textarea').last().fill('six young, the big tank');
	await page.getByRole('button', { name: 'Take it now' }).click();
	await expect(page.getByText('Finish what you are typing first')).toBeVisible();
	await expect(page.locator('textarea').last()).toHaveValue('six young, the big tank');
	await page.locator('textarea').last().fill('');
	await Promise.all([page.waitForEvent('load'), page.getByRole('button', { name: 'Take it now' }).click()]);
	await expect(page.getByRole('heading', { name: 'Help', exact: true })).toBeVisible();
	await expect(page.getByText('A newer app is ready.')).toBeHidden();
	expect(
		await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting)
	).toBeNull();
});

test('an address without https says that phones will not work offline there', async () => {
	const browser = await chromium.launch({
		executablePath: chromiumThere() ?? undefined,
		args: [...chromiumArgs, '--host-resolver-rules=MAP club.test 127.0.0.1']
	});
	try {
		const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
		const at = `http://club.test:${port}`;
		const club = await signIn(page, at);
		await page.goto(`${at}${club}/ready`);
		await expect(page.getByText('This address does not begin with https.').first()).toBeVisible();
		await expect(page.getByText('Not ready yet.')).toBeVisible();
	} finally {
		await browser.close();
	}
});
