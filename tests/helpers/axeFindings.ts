/** What axe finds on a page as it stands, by WCAG 2.2 A and AA; every spec looks with this. */
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

export interface Looked {
	/** These rules alone instead of all of WCAG 2.2 A and AA. */
	readonly rules?: readonly string[];
	/** Only what lies in this part of the page. */
	readonly within?: string;
}

/** @returns one line for each rule broken, with where; empty when nothing is */
export async function axeFindings(page: Page, { rules, within }: Looked = {}): Promise<string[]> {
	// What slides in is looked at where it comes to rest.
	await page.evaluate(() => Promise.allSettled(document.getAnimations().map((one) => one.finished)));
	// Brought in, axe stays in the page until the next load; to read its half megabyte anew costs more than a look.
	const isThere = page.frames().length === 1 && (await page.evaluate(() => 'axe' in globalThis));
	const axe = new AxeBuilder({ page, ...(isThere && { axeSource: ';' }) })
		// Without a blank page of its own to gather results of foreign frames: there are none.
		.setLegacyMode()
		// All rules are looked at; of those that hold, nothing is written down but that they do.
		.options({ resultTypes: ['violations'] });
	if (within) axe.include(within);
	const { violations } = await (rules ? axe.withRules([...rules]) : axe.withTags(wcag)).analyze();
	return violations.map(
		({ id, nodes }) =>
			`${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} ${html.slice(0, 200)}`).join(', ')}`
	);
}
