// Builds dist/: a bundle for every entry point, and the files that are made from the sources.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { loadSources } from './.ci/load.mjs';

// The ES module of fdir asks where its file lies, which a bundle does not know; its CommonJS twin does not.
const alias = { fdir: './node_modules/fdir/dist/index.cjs' };

const forNode = { platform: 'node', format: 'cjs', target: 'node20', alias };
const forPages = { platform: 'browser', format: 'iife', target: ['es2020'] };
const forWebExtensions = { platform: 'browser', target: ['es2022'] };

const bundles = [
  { from: 'client/extension/main.ts', to: 'dist/extension.cjs', ...forNode, external: ['vscode'] },
  { from: 'server/lsp/main.ts', to: 'dist/server.cjs', ...forNode },
  { from: 'client/command-line/main.ts', to: 'dist/cli.cjs', ...forNode, banner: { js: '#!/usr/bin/env node' } },
  { from: 'client/preview/page.ts', to: 'dist/preview.js', ...forPages },
  { from: 'client/work-copy/page.ts', to: 'dist/work-copy.js', ...forPages },
  {
    from: 'client/extension/browser.ts',
    to: 'dist/web/extension.js',
    ...forWebExtensions,
    format: 'cjs',
    external: ['vscode'],
  },
  { from: 'server/lsp/worker.ts', to: 'dist/web/server.js', ...forWebExtensions, format: 'iife' },
];

const options = { bundle: true, minify: true, logLevel: 'warning' };

rmSync('dist', { recursive: true, force: true });
mkdirSync('dist');
await Promise.all(
  bundles.map(({ from, to, ...more }) => build({ entryPoints: [from], outfile: to, ...options, ...more })),
);

const { settingsSchema, textmateGrammar } = await loadSources(`
  export { settingsSchema } from './shared/settings.ts';
  export { textmateGrammar } from './grammar/textmate.ts';
`);
writeFileSync('dist/settings.schema.json', JSON.stringify(settingsSchema(), null, 2));
writeFileSync('dist/cardwright.tmLanguage.json', JSON.stringify(textmateGrammar(), null, 2));
