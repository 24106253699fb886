// What is built: a bundle for every entry point.
import { readFileSync, writeFileSync } from 'node:fs';

// The ES module of fdir asks where its file lies, which a bundle does not know; its CommonJS twin does not.
const alias = { fdir: './node_modules/fdir/dist/index.cjs' };

/** What a startup snapshot of Node cannot hold is loaded when it is first used. */
const loadedLate = {
  name: 'loaded-late',
  setup({ onResolve, onLoad }) {
    const late = /^(?:child_process|crypto|net|fflate)$/;
    onResolve({ filter: late }, ({ path, namespace }) =>
      namespace === 'late' ? undefined : { path, namespace: 'late' },
    );
    onLoad({ filter: late, namespace: 'late' }, async ({ path }) => ({
      contents: `for (const name of ${JSON.stringify(Object.keys(await import(path)))})
        Object.defineProperty(exports, name, { enumerable: true, get: () => require('${path}')[name] });`,
      resolveDir: '.',
    }));
  },
};

/** A text with other signs takes twice the memory, and the bundler leaves them in regular expressions. */
const inAscii = {
  name: 'in-ascii',
  setup({ initialOptions, onEnd }) {
    const escaped = (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
    onEnd(({ errors }) => {
      const { outfile } = initialOptions;
      if (errors.length === 0)
        writeFileSync(outfile, readFileSync(outfile, 'utf8').replace(/[\u0080-\uffff]/g, escaped));
    });
  },
};

const forNode = { platform: 'node', format: 'cjs', target: 'node20', alias };
const forPages = { platform: 'browser', format: 'iife', target: ['es2022'] };
const forWebExtensions = { platform: 'browser', target: ['es2022'] };

const entries = [
  { from: 'client/extension/main.ts', to: 'dist/extension.cjs', ...forNode, external: ['vscode'] },
  { from: 'server/lsp/main.ts', to: 'dist/server.cjs', ...forNode, plugins: [loadedLate, inAscii] },
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
  // Else the bundler makes each such expression anew wherever it is used.
  supported: { 'regexp-unicode-property-escapes': true },
  ...more,
}));
