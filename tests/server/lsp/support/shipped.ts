/** The server as the extension starts it. */
import { existsSync, renameSync } from 'node:fs';
import { basename, join } from 'node:path';
import { build } from 'esbuild';
import { bundles } from '../../../../.ci/bundles.mjs';
import { heapInTrial, keptHeap, withHeap } from '../../../../shared/kept.ts';

export interface Shipped {
  readonly script: string;
  /** Under which it keeps what it starts from the next time. */
  readonly name: string;
}

/** Builds it into a folder. */
export async function shippedServer(folder: string): Promise<Shipped> {
  for (const { outfile = '', ...bundle } of bundles) {
    if (/^dist\/(?:server|start)\.cjs$/.test(outfile))
      await build({ ...bundle, outfile: join(folder, basename(outfile)) });
  }
  return { script: join(folder, 'start.cjs'), name: join(folder, 'compiled', `${'0'.repeat(64)}-test`) };
}

/** The arguments for Node. */
export function startsWith({ script, name }: Shipped): string[] {
  if (!existsSync(keptHeap(name))) return [script, name];
  renameSync(keptHeap(name), heapInTrial(name));
  return [...withHeap(heapInTrial(name)), script, name];
}
