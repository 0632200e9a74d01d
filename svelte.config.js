import adapter from '@sveltejs/adapter-node';

/** @type {import('@sveltejs/kit').Config} */
export default {
	compilerOptions: { runes: ({ filename }) => (filename.includes('node_modules') ? undefined : true) },
	kit: {
		adapter: adapter(),
		paths: { relative: false },
		serviceWorker: { register: false },
		version: { pollInterval: 0 },
		typescript: {
			config: (config) => {
				config.include = [...config.include, '../server/**/*.ts', '../tests/**/*.ts', '../vite.config.ts'];
				return config;
			}
		}
	}
};
