/** Finds a Chromium to test with: the one named, Debian's, Playwright's own, or one that it can install now. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromium } from '@playwright/test';

const debian = ['/usr/bin/chromium', '/usr/bin/chromium-browser'];

/** The path of a browser that is there already, or null. */
export function chromiumThere(): string | null {
	const named = process.env.KITHLINE_CHROMIUM;
	if (named) return existsSync(named) ? named : null;
	const own = chromium.executablePath();
	return [...debian, own].find((path) => existsSync(path)) ?? null;
}

/** The path of a browser, after trying to install one; null with a sentence on the console when there is none. */
export function chromiumOrInstall(): string | null {
	const there = chromiumThere();
	if (there) return there;
	console.log('No browser found. Trying Playwright’s own, then the Debian package.');
	const run = (command: string, args: string[]) =>
		spawnSync(command, args, { stdio: 'inherit', timeout: 240_000 }).status === 0;
	if (run('npx', ['playwright', 'install', 'chromium'])) {
		const installed = chromiumThere();
		if (installed) return installed;
	}
	const mayInstall = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
	if (mayInstall && run('apt-get', ['update', '-qq'])) run('apt-get', ['install', '-y', '-qq', 'chromium']);
	const installed = chromiumThere();
	if (!installed) {
		console.log(
			'There is no Chromium: install one (Debian: apt-get install chromium; elsewhere: npx playwright install chromium), or set KITHLINE_CHROMIUM to its path.'
		);
	}
	return installed;
}

/** What a browser on a closed network, perhaps run as root, needs to start quietly. */
export const chromiumArgs = [
	'--no-sandbox',
	'--disable-quic',
	'--no-first-run',
	'--disable-background-networking',
	'--disable-component-update',
	'--disable-sync'
];
