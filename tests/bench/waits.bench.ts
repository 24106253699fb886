/** How long other answers wait while the proof of a large card runs, as ratios to the check in which they wait. */
import { bench, describe } from 'vitest';
import { median, waitsWhileChecking } from '../server/lsp/support/waits.ts';

describe('a hover while a card of 4000 steps is checked', () => {
  bench(
    'the server over stdio',
    async () => {
      const { during, alone, check } = await waitsWhileChecking(4000, 5);
      const longest = Math.max(...during);
      const said = (name: string, wait: number) =>
        `${name} ${wait.toFixed(1)} ms, ${((100 * wait) / check).toFixed(1)} % of the check`;
      console.log(
        `check ${check.toFixed(0)} ms; hover alone ${median(alone).toFixed(1)} ms; ` +
          `${said('while it runs: median', median(during))}; ${said('longest', longest)} (of ${during.length})`,
      );
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
