/** What a text hides does nothing to the lists, trees and boxes of an editor: they show that it is there. */
import { expect, it } from 'vitest';
import type { CompletionList } from 'vscode-languageserver';
import { hasHidden } from '../../../shared/hidden.ts';
import { Client } from './support/client.ts';

const nasty = 'the \u202Evlav\u202C\u001B[2J lamp';
const text = `kind lamp { off "Switch {} off", on "Switch {} on" }
item left : lamp "${nasty}" normally off
procedure light(it : lamp) "${nasty}" { step set it on }
card wash "${nasty}" {
  number "1" revision "A" crew mechanic "Mechanic"
  stage "${nasty}" { step "${nasty}" step set left on do light(left) }
}
`;

it('what an editor lists of a text shows what the text hides', async () => {
  const client = await Client.start();
  await client.open('a.card', text);
  const before = text.slice(0, text.indexOf('left on')).split('\n');
  const position = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  const { items } = await client.request<CompletionList>('textDocument/completion', 'a.card', { position });
  expect(items.map(({ label }) => label)).toContain('left');
  const lists = {
    outline: await client.request('textDocument/documentSymbol', 'a.card'),
    symbols: await client.connection.sendRequest('workspace/symbol', { query: '' }),
    completion: items.map(({ label, detail, labelDetails, documentation }) => [
      label,
      detail,
      labelDetails,
      documentation,
    ]),
    hover: await client.request('textDocument/hover', 'a.card', { position }),
    lenses: await client.request('textDocument/codeLens', 'a.card'),
    call: await client.request('textDocument/prepareCallHierarchy', 'a.card', { position: { line: 2, character: 11 } }),
  };
  for (const [name, list] of Object.entries(lists))
    expect({ name, hides: hides(list) }).toEqual({ name, hides: false });
  expect(JSON.stringify(lists.outline)).toContain('the [U+202E]vlav[U+202C][U+001B][2J lamp');
  await client.stop();
});

function hides(value: unknown): boolean {
  if (typeof value === 'string') return hasHidden(value);
  return value !== null && typeof value === 'object' && Object.values(value).some(hides);
}
