// Bundles every entry point into dist/.
import { existsSync, rmSync } from 'node:fs';
import { build } from 'esbuild';

const forNode = { platform: 'node', format: 'cjs', target: 'node20' };
const forPages = { platform: 'browser', format: 'iife', target: ['es2020'] };

const bundles = [
  { from: 'client/extension/main.ts', to: 'dist/extension.cjs', ...forNode, external: ['vscode'] },
  { from: 'server/lsp/main.ts', to: 'dist/server.cjs', ...forNode },
  { from: 'client/command-line/main.ts', to: 'dist/cli.cjs', ...forNode, banner: { js: '#!/usr/bin/env node' } },
  { from: 'client/preview/page.ts', to: 'dist/preview.js', ...forPages },
  { from: 'client/work-copy/page.ts', to: 'dist/work-copy.js', ...forPages },
];

rmSync('dist', { recursive: true, force: true });
await Promise.all(
  bundles
    .filter(({ from }) => existsSync(from))
    .map(({ from, to, ...options }) =>
      build({
        entryPoints: [from],
        outfile: to,
        bundle: true,
        minify: true,
        sourcemap: false,
        logLevel: 'warning',
        ...options,
      }),
    ),
);
