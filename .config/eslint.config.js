import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import svelte from 'eslint-plugin-svelte';
import ts from 'typescript-eslint';

export default ts.config(
	{
		ignores: ['node_modules/**', '.svelte-kit/**', 'build/**', 'data/**', '.artifacts/**', 'test-results/**']
	},
	js.configs.recommended,
	...ts.configs.recommended,
	...svelte.configs.recommended,
	prettier,
	...svelte.configs.prettier,
	{
		rules: {
			// TypeScript knows which names exist; the plain rule does not know the browser's.
			'no-undef': 'off',
			'@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
			'svelte/no-navigation-without-resolve': 'off',
			// Maps and dates made and used up inside one function need no reactivity.
			'svelte/prefer-svelte-reactivity': 'off',
			// svelte-check gives warnings that this rule does not know of.
			'svelte/no-unused-svelte-ignore': 'off'
		}
	},
	{
		files: ['src/**/*.ts', 'server/**/*.ts', 'tests/**/*.ts'],
		languageOptions: {
			parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname + '/..' }
		},
		rules: { '@typescript-eslint/no-floating-promises': 'error' }
	},
	{
		files: ['**/*.svelte', '**/*.svelte.ts'],
		languageOptions: { parserOptions: { parser: ts.parser } }
	},
	{
		files: ['src/lib/{records,club,genetics,pedigree,planning,season}/**/*.ts'],
		rules: { '@typescript-eslint/no-explicit-any': 'error' }
	},
	{
		files: ['server/main.ts'],
		rules: {
			'no-restricted-imports': [
				'error',
				{
					patterns: [
						{
							regex: '^#(?!server/bridge)',
							message: 'main.ts knows only the bridge: put stateful code behind hooks.server.ts.'
						}
					]
				}
			]
		}
	}
);
