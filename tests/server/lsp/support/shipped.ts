/** The server as the extension starts it. */
import { basename, join } from 'node:path';
import { buildSync } from 'esbuild';
import { bundles } from '../../../../.ci/bundles.mjs';

/** Builds it into a folder, and gives the script that is started. */
export function shippedServer(folder: string): string {
  for (const { outfile = '', ...bundle } of bundles) {
    if (/^dist\/(?:server|start)\.cjs$/.test(outfile))
      buildSync({ ...bundle, outfile: join(folder, basename(outfile)) });
  }
  return join(folder, 'start.cjs');
}
