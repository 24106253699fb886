// Loads exports of the TypeScript sources into a script.
import { build } from 'esbuild';

/** `exports` are lines such as `export { reference } from './server/findings/support/help.ts';` */
export async function loadSources(exports) {
  const bundle = await build({
    stdin: { contents: exports, resolveDir: process.cwd(), loader: 'ts' },
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    logLevel: 'warning',
  });
  return import(`data:text/javascript;base64,${Buffer.from(bundle.outputFiles[0].contents).toString('base64')}`);
}
