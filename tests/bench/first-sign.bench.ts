/** How long a writer waits for a sign of life beside texts that take long: `npm run bench` prints the table. */
import { bench, describe } from 'vitest';
import { firstSigns } from '../server/lsp/support/first-signs.ts';

describe('ms until a request is answered or the server says that it works (until it is answered)', () => {
  bench(
    'the server over stdio',
    async () => {
      const rows: Record<string, Record<string, string>> = {};
      for await (const [name, row] of firstSigns()) rows[name] = row;
      console.table(rows);
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
