// What is built: a bundle for every entry point.

// The ES module of fdir asks where its file lies, which a bundle does not know; its CommonJS twin does not.
const alias = { fdir: './node_modules/fdir/dist/index.cjs' };

const forNode = { platform: 'node', format: 'cjs', target: 'node20', alias };
const forPages = { platform: 'browser', format: 'iife', target: ['es2022'] };
const forWebExtensions = { platform: 'browser', target: ['es2022'] };

const entries = [
  { from: 'client/extension/main.ts', to: 'dist/extension.cjs', ...forNode, external: ['vscode'] },
  { from: 'server/lsp/main.ts', to: 'dist/server.cjs', ...forNode },
  { from: 'server/lsp/start.ts', to: 'dist/start.cjs', ...forNode },
  { from: 'client/command-line/main.ts', to: 'dist/cli.cjs', ...forNode, banner: { js: '#!/usr/bin/env node' } },
  { from: 'client/preview/page.ts', to: 'dist/preview.js', ...forPages },
  { from: 'client/work-copy/page.ts', to: 'dist/work-copy.js', ...forPages },
  { from: 'client/report/page.ts', to: 'dist/report.js', ...forPages },
  {
    from: 'client/extension/browser.ts',
    to: 'dist/web/extension.js',
    ...forWebExtensions,
    format: 'cjs',
    external: ['vscode'],
  },
  { from: 'server/lsp/worker.ts', to: 'dist/web/server.js', ...forWebExtensions, format: 'iife' },
];

/** As esbuild takes them. The metafile says which files went into each. */
export const bundles = entries.map(({ from, to, ...more }) => ({
  entryPoints: [from],
  outfile: to,
  bundle: true,
  minify: true,
  metafile: true,
  loader: { '.card': 'text' },
  logLevel: 'warning',
  ...more,
}));
