// Loads exports of the TypeScript sources into a script.
import { rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/** `exports` are lines such as `export { reference } from './server/findings/support/help.ts';` */
export async function loadSources(exports) {
  const outfile = resolve(`.cache/sources-${process.pid}-${performance.now()}.mjs`);
  await build({
    stdin: { contents: exports, resolveDir: process.cwd(), loader: 'ts' },
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    loader: { '.card': 'text' },
    logLevel: 'warning',
  });
  try {
    return await import(pathToFileURL(outfile).href);
  } finally {
    rmSync(outfile);
  }
}
