// SPDX-License-Identifier: MIT
import svelte from 'eslint-plugin-svelte';
import ts from 'typescript-eslint';

export default ts.config(
  { ignores: ['dist/', 'src/engine/built/', '**/*.generated.ts', 'scripts/'] },
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  { files: ['**/*.svelte', '**/*.svelte.ts'], languageOptions: { parserOptions: { parser: ts.parser } } },
  // TypeScript knows the names of the browser.
  // Maps and sets here are built inside one derivation and never changed afterwards.
  { rules: { 'no-undef': 'off', 'svelte/prefer-svelte-reactivity': 'off' } },
);
