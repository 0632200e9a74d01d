import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from '@playwright/test';
import { chromiumArgs, chromiumThere } from '#tests/helpers/findChromium.ts';

/** Each spec starts the servers that it needs. One worker: two cores, and the servers want one of them. */
export default defineConfig({
	testDir: '.',
	outputDir: join(tmpdir(), 'kithline-e2e'),
	fullyParallel: false,
	workers: 1,
	retries: 0,
	forbidOnly: true,
	reporter: 'list',
	timeout: 90_000,
	expect: { timeout: 15_000 },
	use: {
		browserName: 'chromium',
		viewport: { width: 390, height: 844 },
		launchOptions: { executablePath: chromiumThere() ?? undefined, args: chromiumArgs }
	}
});
