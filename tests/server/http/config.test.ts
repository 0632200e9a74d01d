import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { problems } from '#server/appError.ts';
import { appVersion, ConfigProblem, describeConfig, readConfig, variables } from '#server/config.ts';
import { isForeign, withSocketOrigin } from '#server/http/headers.ts';
import { offlineWorks } from '#server/http/offlineWorks.ts';
import { secretInHeader } from '#server/http/sessionSecret.ts';

test('the version is that of package.json', () => {
	const { version } = JSON.parse(readFileSync(resolve('package.json'), 'utf8')) as { version: string };
	expect(appVersion).toBe(version);
});

describe('readConfig', () => {
	test('has a default for everything', () => {
		expect(readConfig({})).toEqual({
			port: 4321,
			host: null,
			dataFolder: resolve('data'),
			databaseFile: resolve('data/kithline.sqlite'),
			origin: null,
			trustProxy: false,
			bodyLimitBytes: 16_777_216,
			sessionDays: 60,
			demo: false
		});
	});

	test('takes what the environment says', () => {
		const env = {
			PORT: '0',
			HOST: '127.0.0.1',
			KITHLINE_DATA: '/srv/k',
			ORIGIN: 'https://lines.example.org/',
			TRUST_PROXY: '1'
		};
		expect(readConfig(env)).toMatchObject({
			port: 0,
			host: '127.0.0.1',
			databaseFile: '/srv/k/kithline.sqlite',
			origin: 'https://lines.example.org',
			trustProxy: true
		});
	});

	test.each([
		['PORT', 'abc'],
		['PORT', '70000'],
		['PORT', '-1'],
		['PORT', '1.5'],
		['ORIGIN', 'lines.example.org'],
		['ORIGIN', 'https://lines.example.org/path'],
		['ORIGIN', 'ftp://lines.example.org'],
		['TRUST_PROXY', 'yes'],
		['KITHLINE_SESSION_DAYS', '0'],
		['BODY_SIZE_LIMIT', '512K']
	])('refuses %s=%s in one sentence that names it', (name, value) => {
		expect(() => readConfig({ [name]: value })).toThrow(ConfigProblem);
		expect(() => readConfig({ [name]: value })).toThrow(
			new RegExp(`^${name} must .*${value.replace(/[.]/g, '\\.')}.*\\.$`)
		);
	});

	test('reads no variable that is not listed, and lists none that it does not read', () => {
		const read = new Set<string>();
		readConfig(new Proxy({}, { get: (_, name) => void read.add(String(name)) }));
		expect([...read].sort()).toEqual(Object.keys(variables).sort());
	});

	test('tells what was decided', () => {
		const lines = describeConfig(readConfig({ ORIGIN: 'https://lines.example.org' }));
		expect(lines).toContain('People reach this club server at https://lines.example.org');
	});
});

test.each([
	['https://lines.example.org', true],
	['http://localhost:4321', true],
	['http://club.localhost', true],
	['http://127.0.0.1:4321', true],
	['http://127.8.9.1', true],
	['http://[::1]:4321', true],
	['http://192.168.1.5:4321', false],
	['http://lines.example.org', false],
	['http://127.0.0.1.example.org', false],
	['http://notlocalhost', false]
])('browsers keep an app at %s: %s (W3C Secure Contexts, section 3.1)', (address, works) => {
	expect(offlineWorks(new URL(address))).toBe(works);
});

const here = new URL('https://lines.example.org/sign-in');
test.each([
	['GET', { origin: 'https://evil.example' }, false],
	['POST', { origin: 'https://lines.example.org' }, false],
	['POST', { origin: 'https://evil.example' }, true],
	['POST', { origin: 'http://lines.example.org' }, true],
	['POST', { origin: 'https://lines.example.org:8443' }, true],
	['POST', { origin: 'null' }, true],
	['DELETE', { origin: 'https://evil.example' }, true],
	['POST', { 'sec-fetch-site': 'cross-site' }, true],
	['POST', { 'sec-fetch-site': 'same-site' }, true],
	['POST', { 'sec-fetch-site': 'same-origin' }, false],
	['POST', { 'sec-fetch-site': 'none' }, false],
	['POST', {}, false]
])('%s with %o comes from another site’s page: %s', (method, headers, foreign) => {
	expect(isForeign(new Request(here, { method, headers: headers as Record<string, string> }), here)).toBe(
		foreign
	);
});

test('the policy names the socket of this host and no other', () => {
	const policy = withSocketOrigin("default-src 'self'; connect-src 'self'; img-src 'self'", here);
	expect(policy).toContain("connect-src 'self' ws://lines.example.org wss://lines.example.org;");
});

test.each([
	['kithline_session=abc', 'abc'],
	['a=b; kithline_session=abc%20d; c=d', 'abc d'],
	['xkithline_session=abc', null],
	['', null],
	[undefined, null]
])('the session’s secret in the Cookie header %o is %o', (header, secret) => {
	expect(secretInHeader(header)).toBe(secret);
});

test('every problem says in one sentence what is wrong, and in another what to do', () => {
	for (const [code, { status, sentence, whatToDo }] of Object.entries(problems)) {
		expect(status, code).toBeGreaterThanOrEqual(400);
		for (const words of [sentence, whatToDo]) {
			expect(words, code).toMatch(/^[A-Z].*\.$/);
			expect(words, code).not.toMatch(/!/);
		}
	}
});
