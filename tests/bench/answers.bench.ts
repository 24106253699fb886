/**
 * What an editor asks for again after each change, beside the findings: `npm run bench` prints the table. What is asked next waits for what is still being worked
 * out, so that none of it may take longer than the findings do.
 */
import { bench, describe } from 'vitest';
import { methods } from '../../shared/protocol.ts';
import { Client, rangeOf } from '../server/lsp/support/client.ts';
import { median } from '../server/lsp/support/waits.ts';
import { numbers } from '../support/numbers.ts';
import { asCard } from './procedure.ts';

const file = 'a.card';
const steps = 500;
const warmUp = 6;
const edits = 24;

const linesShown = { start: { line: 100, character: 0 }, end: { line: 160, character: 0 } };

/** The cursor stands where something was typed. */
const askedBeside = (client: Client, at: number): Readonly<Record<string, object>> => {
  const text = client.textOf(file);
  return {
    'textDocument/semanticTokens/full': {},
    'textDocument/codeLens': {},
    'textDocument/inlayHint': { range: linesShown },
    'textDocument/documentSymbol': {},
    'textDocument/foldingRange': {},
    'textDocument/documentLink': {},
    'textDocument/documentHighlight': { position: rangeOf(text, at, at).start },
    'textDocument/codeAction': { range: rangeOf(text, at, at), context: { diagnostics: [] } },
    [methods.preview]: { uri: client.uri(file) },
  };
};

const changes = {
  'letter in a text': { before: /wait until/g, typed: 'x' },
  'digit in a limit': { before: /(?<=read \w+ [\d.]+ \w+ to [\d.]+)(?= )/g, typed: '5' },
  'step added': { before: /^ {2}step (?:s\d+: )?takes 10 s/gm, typed: '  step "Look."\n' },
};

async function timesAfter(
  client: Client,
  { before, typed }: (typeof changes)[keyof typeof changes],
  askedAt: (client: Client, at: number) => Readonly<Record<string, object>> = () => ({}),
) {
  const took: Record<string, number[]> = { findings: [] };
  for (const n of numbers(warmUp + edits)) {
    const places = [...client.textOf(file).matchAll(before)].map(({ index }) => index);
    const at = places[Math.floor(n * 0.618034 * places.length) % places.length] ?? 0;
    const began = performance.now();
    await client.edit(file, at, at, typed);
    await client.findings(file);
    took.findings?.push(performance.now() - began);
    for (const [method, params] of Object.entries(askedAt(client, at))) {
      const asking = performance.now();
      await client.request(method, file, params);
      took[method] = [...(took[method] ?? []), performance.now() - asking];
    }
  }
  return Object.entries(took).map(([what, times]) => [what, median(times.slice(warmUp)).toFixed(1)] as const);
}

describe(`ms until each is answered in a card of ${steps} steps, medians`, () => {
  bench(
    'the server over stdio',
    async () => {
      const client = await Client.start({ options: { findings: 'push' } });
      await client.open(file, asCard(steps, 'deep'));
      await client.told(() => client.published.length > 0 || undefined);
      const rows: Record<string, Record<string, string>> = {};
      for (const [name, change] of Object.entries(changes))
        rows[name] = Object.fromEntries(await timesAfter(client, change, askedBeside));
      await client.stop();
      console.table(rows);
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});

describe('ms until the findings of a card of 50 steps, medians, in a folder of so many', () => {
  bench(
    'the server over stdio',
    async () => {
      const rows: Record<string, Record<string, string>> = {};
      for (const cards of [1, 100, 1_000]) {
        const card = (n: number) => asCard(50, 'deep').replace('"G-1"', `"G-${n}"`);
        const others = Object.fromEntries(numbers(cards - 1).map((n) => [`other-${n}.card`, card(n + 2)]));
        const client = await Client.start({ files: { ...others, [file]: card(1) }, options: { findings: 'push' } });
        await client.told(() => client.checked.size === cards || undefined);
        await client.open(file, card(1));
        const row: Record<string, string> = {};
        for (const [name, change] of Object.entries(changes)) {
          for (const [, time] of await timesAfter(client, change)) row[name] = time;
        }
        rows[`${cards} cards`] = row;
        await client.stop();
      }
      console.table(rows);
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
