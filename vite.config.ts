import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';
import { devUpgrade } from './server/http/devUpgrade.ts';

export default defineConfig({
	plugins: [sveltekit(), devUpgrade()],
	worker: { format: 'es' },
	test: {
		include: ['tests/**/*.test.ts'],
		environment: 'node',
		// A busy machine is slow, not wrong: limits only end what hangs.
		testTimeout: 60_000,
		hookTimeout: 60_000
	}
});
