import { argon2Sync } from 'node:crypto';
import { expect, test } from 'vitest';
import { hashPassword, isPasswordOf, isStrongEnough } from '#server/auth/passwords.ts';

test('the hash is argon2id with the costs of the OWASP Password Storage Cheat Sheet (19 MiB, 2 passes; from memory), salted', async () => {
	const [first, second] = await Promise.all([
		hashPassword('three wet herons'),
		hashPassword('three wet herons')
	]);
	expect(first).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
	expect(first).not.toBe(second);
});

test('the same hash comes out of another implementation (OpenSSL’s argon2id, RFC 9106, through node:crypto)', async () => {
	const [, , , , salt, tag] = (await hashPassword('three wet herons')).split('$');
	const again = argon2Sync('argon2id', {
		message: 'three wet herons',
		nonce: Buffer.from(salt!, 'base64'),
		parallelism: 1,
		memory: 19 * 1024,
		passes: 2,
		tagLength: Buffer.from(tag!, 'base64').length
	});
	expect(again.toString('base64').replace(/=+$/, '')).toBe(tag);
});

test('a password is accepted however its accents were typed (Unicode NFKC), and no other is', async () => {
	const hash = await hashPassword('caf\u00e9 by the sea');
	expect(await isPasswordOf(hash, 'cafe\u0301 by the sea')).toBe(true);
	expect(await isPasswordOf(hash, 'Caf\u00e9 by the sea')).toBe(false);
	expect(await isPasswordOf(hash, '')).toBe(false);
});

test('without a hash, or with a broken one, every password is wrong: also the empty one', async () => {
	expect(await isPasswordOf(null, '')).toBe(false);
	expect(await isPasswordOf(null, 'three wet herons')).toBe(false);
	expect(await isPasswordOf('not a hash', 'three wet herons')).toBe(false);
});

test.each([
	['three wet herons', true],
	['abcdefghij', true],
	['short', false],
	['aaaaaaaaaaaa', false],
	['password123', false],
	['1234567890', false],
	['wren@example.org', false],
	['x'.repeat(201), false]
])('as a new password %s: %s', (password, strong) => {
	expect(isStrongEnough(password, 'Wren@example.org')).toBe(strong);
});
