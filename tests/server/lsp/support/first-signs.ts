/**
 * How long a writer waits for a sign of life beside texts that take long: for each request, milliseconds until it is answered or
 * until the server says that it works, whichever comes first. Measured over stdio, with the server as it is shipped.
 */

import { setTimeout } from 'node:timers/promises';
import { longCards } from '../../../support/long-cards.ts';
import { Client } from './client.ts';

const small = 'item ignition : valve "the ignition valve"\n';
const position = { line: 0, character: 6 };
const requests = {
  'hover beside': ['textDocument/hover', 'small.card', { position }],
  hover: ['textDocument/hover', 'large.card', { position }],
  completion: ['textDocument/completion', 'large.card', { position: { line: 0, character: 0 } }],
  outline: ['textDocument/documentSymbol', 'large.card', {}],
  colours: ['textDocument/semanticTokens/full', 'large.card', {}],
  folding: ['textDocument/foldingRange', 'large.card', {}],
  layout: ['textDocument/formatting', 'large.card', { options: { tabSize: 2, insertSpaces: true } }],
  'a mend': [
    'textDocument/codeAction',
    'large.card',
    { range: { start: position, end: position }, context: { diagnostics: [] } },
  ],
} as const;

/** Milliseconds after which an answer is not waited for any more. */
const patience = 20_000;

type Row = Record<string, string>;

/** Opens the text, or types a sign into it, and asks all that an editor asks then. */
async function signsAfter(act: (client: Client) => Promise<void>, client: Client): Promise<Row> {
  const worksBefore = client.works.length;
  await act(client);
  const began = performance.now();
  const since = () => performance.now() - began;
  const toldAt = client.told(() => (client.works.length > worksBefore ? since() : undefined));
  const waits = Object.entries({ ...requests, findings: undefined }).map(async ([name, request]) => {
    const answered = request
      ? client.request(request[0], request[1], request[2]).then(since)
      : client.findings('large.card').then(since);
    const first = await Promise.race([answered, toldAt]);
    const last = await Promise.race([answered, setTimeout(patience, undefined)]);
    return [name, `${first.toFixed(0)} (${last?.toFixed(0) ?? 'not yet'})`] as const;
  });
  return Object.fromEntries(await Promise.all(waits));
}

/** A row for each text as it is opened, and as a sign is typed into it: `told (answered)`. */
export async function* firstSigns(names: readonly string[] = Object.keys(longCards)): AsyncGenerator<[string, Row]> {
  for (const name of names) {
    const client = await Client.start({ capabilities: { window: { workDoneProgress: true } } });
    await client.open('small.card', small);
    await client.findings('small.card');
    const text = longCards[name as keyof typeof longCards];
    yield [`${name}, opened`, await signsAfter((one) => one.open('large.card', text), client)];
    yield [`${name}, typed`, await signsAfter((one) => one.edit('large.card', 0, 0, '\n'), client)];
    await client.kill();
  }
}
