/** Cards on which engine and oracle once differed, as small as they could be made. Each was a slip of the engine, but for two of how they were compared. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { describeDifferences, differences } from './compare.ts';
import { ask } from './engine.ts';
import { seenOnAllMachines } from './machines.ts';
import type { Sightings } from './verdicts.ts';

const folder = 'tests/oracle/once-differed';

test.each(readdirSync(folder))('they agree on %s', (file) => {
  const text = readFileSync(join(folder, file), 'utf8');
  const { card, says } = ask(text);
  const found = differences(card, seenOnAllMachines(card, 300_000) as Sightings, says);
  expect(found.length > 0 ? describeDifferences(text, found) : '').toBe('');
});
