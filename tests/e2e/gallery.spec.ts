/** Every shared component, looked at by axe (WCAG 2.2 A and AA) and by measuring, by day and night, phone and desk. */
import { expect, test, type Page } from '@playwright/test';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { axeFindings } from '#tests/helpers/axeFindings.ts';
import { startServer, type RunningServer } from '#tests/helpers/startServer.ts';

const port = 4374;
const baseURL = `http://localhost:${port}`;
const data = mkdtempSync(join(tmpdir(), 'kithline-gallery-'));
let server: RunningServer | undefined;

test.use({ baseURL });
test.beforeAll(async () => {
	server = await startServer({
		node: ['server/main.ts'],
		cwd: join(import.meta.dirname, '../..'),
		env: { PORT: String(port), KITHLINE_DATA: data },
		readyUrl: `${baseURL}/healthz`
	});
});
test.afterAll(async () => {
	await server?.stop();
	rmSync(data, { recursive: true, force: true });
});

const screens = { phone: { width: 390, height: 844 }, desk: { width: 1440, height: 900 } };

async function openGallery(page: Page): Promise<string[]> {
	const complaints: string[] = [];
	page.on('console', (message) => {
		if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
	});
	page.on('pageerror', (error) => complaints.push(error.message));
	await page.goto('/dev/gallery');
	await expect(page.getByRole('heading', { name: 'Gallery' })).toBeVisible();
	await expect(page.getByRole('article', { name: 'Label of bag 0417 K' })).toBeVisible();
	return complaints;
}

for (const [screen, viewport] of Object.entries(screens)) {
	for (const colorScheme of ['light', 'dark'] as const) {
		test(`the gallery on a ${screen}, ${colorScheme}, has no findings`, async ({ page }) => {
			await page.setViewportSize(viewport);
			await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
			const complaints = await openGallery(page);
			// The 200 rows are all alike: those of one line are looked at.
			await page.getByRole('button', { name: /^KI-11/, pressed: false }).click();
			expect(await axeFindings(page)).toEqual([]);
			await page.getByRole('button', { name: 'Open a sheet' }).click();
			await expect(page.getByRole('dialog', { name: 'Why is this count wrong?' })).toBeVisible();
			expect(await axeFindings(page, { within: 'dialog' })).toEqual([]);
			expect(complaints).toEqual([]);
		});
	}
}

test('nothing is wider than a phone, and what is pressed is at least 48 px tall', async ({ page }) => {
	await page.setViewportSize(screens.phone);
	await openGallery(page);
	const found = await page.evaluate(() => {
		const small = [...document.querySelectorAll('button, select, label:has(input), input:not([type=radio])')]
			.filter((each) => each.checkVisibility())
			// The link of a list row reaches over the whole row.
			.map((each) => (each.matches('.whole') ? (each.closest('li') ?? each) : each))
			.map((each) => ({ words: each.textContent?.trim(), height: each.getBoundingClientRect().height }))
			.filter(({ height }) => height < 48);
		return { small, wider: document.documentElement.scrollWidth - innerWidth };
	});
	expect(found).toEqual({ small: [], wider: 0 });
});

test('body text is 18 px and the font is our own', async ({ page }) => {
	await openGallery(page);
	const size = await page.evaluate(async () => {
		await document.fonts.ready;
		return {
			px: getComputedStyle(document.body).fontSize,
			own: document.fonts.check('18px "Atkinson Hyperlegible Next Variable"')
		};
	});
	expect(size).toEqual({ px: '18px', own: true });
});

test('a count is made with taps, by typing, and never falls below nothing', async ({ page }) => {
	await openGallery(page);
	const count = page.getByRole('group', { name: /How many/ });
	await count.getByRole('button', { name: 'one more, not sexed' }).click();
	await expect(count.locator('output')).toHaveText('2m 3f 1?');
	await count.getByRole('button', { name: 'one less, not sexed' }).click();
	await expect(count.getByRole('button', { name: 'one less, not sexed' })).toBeDisabled();
	await count.getByText('Type it instead').click();
	const typed = count.getByLabel('Males, females, not sexed');
	await typed.fill('1.2.30');
	await expect(count.locator('output')).toHaveText('1m 2f 30?');
	await typed.fill('many');
	await expect(count.getByRole('alert')).toContainText('2.3.6');
	await expect(count.locator('output')).toHaveText('1m 2f 30?');
});

test('a table is sorted by its headings, and says so', async ({ page }) => {
	await openGallery(page);
	const table = page.getByRole('table', { name: 'Groups in all rooms (200)' });
	await expect(table.getByRole('row')).toHaveCount(201);
	await table.getByRole('button', { name: 'Room' }).click();
	await expect(table.getByRole('columnheader', { name: 'Room' })).toHaveAttribute('aria-sort', 'ascending');
	const rooms = await table.locator('tbody tr td:nth-child(3)').allTextContents();
	// ECMA-402, Intl.Collator: the browser's own order of words.
	expect(rooms).toEqual([...rooms].sort(new Intl.Collator(undefined, { numeric: true }).compare));
	await table.getByRole('button', { name: 'Room' }).click();
	await expect(table.getByRole('columnheader', { name: 'Room' })).toHaveAttribute('aria-sort', 'descending');
});

test('the choice of night is kept for the next visit', async ({ page }) => {
	await page.emulateMedia({ colorScheme: 'light' });
	await openGallery(page);
	await page.getByRole('radio', { name: 'Night' }).check();
	await expect(page.locator('html')).toHaveCSS('background-color', 'rgb(0, 0, 0)');
	await page.reload();
	await expect(page.locator('html')).toHaveCSS('background-color', 'rgb(0, 0, 0)');
});

test('a sheet is left by Escape, and focus goes back to what opened it', async ({ page }) => {
	await openGallery(page);
	await page.getByRole('button', { name: 'Open a sheet' }).click();
	await expect(page.getByRole('dialog')).toBeVisible();
	await page.keyboard.press('Escape');
	await expect(page.getByRole('dialog')).toBeHidden();
	await expect(page.getByRole('button', { name: 'Open a sheet' })).toBeFocused();
});

test('labels are printed whole, 21 to an A4 page', async ({ page }) => {
	await openGallery(page);
	await page.emulateMedia({ media: 'print' });
	await page.setViewportSize({ width: 794, height: 1123 });
	const places = await page.locator('.place:has(article)').evaluateAll((all) =>
		all.map((place) => {
			const inside = place.querySelector('.inside');
			return {
				// CSS Values 4: 1mm is 96/25.4 px.
				widthMm: Math.round((place.getBoundingClientRect().width * 254) / 96) / 10,
				heightMm: Math.round((place.getBoundingClientRect().height * 254) / 96) / 10,
				cutOff: (inside?.scrollHeight ?? 0) > place.clientHeight
			};
		})
	);
	expect(places.length).toBeGreaterThan(4);
	for (const place of places) expect(place).toEqual({ widthMm: 63.5, heightMm: 38.1, cutOff: false });
});

test('line marks of 300 codes differ to the eye at 20 px', async ({ page }) => {
	await openGallery(page);
	const closest = await page.evaluate(async () => {
		const marks = [...document.querySelectorAll<SVGPathElement>('svg[role=img] path[fill-rule]')].map(
			(path) => path.getAttribute('d') ?? ''
		);
		const pictures = [...new Set(marks)].map((d) => {
			const canvas = new OffscreenCanvas(20, 20);
			const ink = canvas.getContext('2d');
			if (!ink) throw new Error('no canvas');
			ink.scale(20 / 24, 20 / 24);
			ink.fill(new Path2D(d), 'evenodd');
			return ink.getImageData(0, 0, 20, 20).data.filter((_, i) => i % 4 === 3);
		});
		let least = 400;
		for (let a = 0; a < pictures.length; a++) {
			for (let b = 0; b < a; b++) {
				let different = 0;
				for (let i = 0; i < 400; i++)
					if (Math.abs((pictures[a]?.[i] ?? 0) - (pictures[b]?.[i] ?? 0)) > 127) different++;
				least = Math.min(least, different);
			}
		}
		return { marks: pictures.length, least };
	});
	expect(closest.marks).toBeGreaterThanOrEqual(300);
	// Of 400 dots: a tenth is one whole cell of the nine (own choice).
	expect(closest.least).toBeGreaterThanOrEqual(40);
});
