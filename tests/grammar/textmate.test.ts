import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';
import { textmateGrammar } from '../../grammar/textmate.ts';
import { reservedWords } from '../../grammar/words.ts';

let colours: textmate.IGrammar;

/** The colouring grammar in the tokenizer of the editor itself. */
beforeAll(async () => {
  const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');
  await oniguruma.loadWASM(new Uint8Array(readFileSync(wasm)).buffer);
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(JSON.stringify(textmateGrammar()), 'cardwright.json'),
  });
  const loaded = await registry.loadGrammar('source.cardwright');
  if (!loaded) throw new Error('The colouring grammar was not loaded.');
  colours = loaded;
});

/** The stretches of a text that are coloured alike, with their innermost scope. */
function coloured(text: string): [string, string][] {
  const stretches: [string, string][] = [];
  let state = textmate.INITIAL;
  for (const line of text.split('\n')) {
    const { tokens, ruleStack } = colours.tokenizeLine(line, state);
    let last: [string, string] | undefined;
    for (const { startIndex, endIndex, scopes } of tokens) {
      const piece = line.slice(startIndex, endIndex);
      const scope = scopes.length > 1 ? (scopes.at(-1) as string).replace('.cardwright', '') : undefined;
      if (scope !== undefined && last?.[1] === scope) last[0] += piece;
      else {
        last = scope === undefined ? undefined : [piece, scope];
        if (last) stretches.push(last);
      }
    }
    state = ruleStack;
  }
  return stretches;
}

describe('colours of', () => {
  test.each([
    [
      'kind valve {',
      [
        ['kind', 'storage.type'],
        ['valve', 'entity.name'],
        ['{', 'punctuation.section.braces'],
      ],
    ],
    [
      'step by crew set left-valve open',
      [
        ['step', 'keyword.control'],
        ['by', 'keyword.other'],
        ['crew', 'keyword.other.field'],
        ['set', 'support.function.action'],
        ['left-valve', 'variable.other'],
        ['open', 'variable.other'],
      ],
    ],
    [
      'danger noise',
      [
        ['danger', 'keyword.other.admonition.danger'],
        ['noise', 'variable.other'],
      ],
    ],
    [
      'at least 12.5 %',
      [
        ['at', 'keyword.other'],
        ['least', 'keyword.other'],
        ['12.5', 'constant.numeric'],
        ['%', 'keyword.other.unit'],
      ],
    ],
    [
      '-40 degC to 3 L/min',
      [
        ['-40', 'constant.numeric'],
        ['degC', 'keyword.other.unit'],
        ['to', 'keyword.other'],
        ['3', 'constant.numeric'],
        ['L/min', 'keyword.other.unit'],
      ],
    ],
    [
      '27 to 29 V',
      [
        ['27', 'constant.numeric'],
        ['to', 'keyword.other'],
        ['29', 'constant.numeric'],
        ['V', 'keyword.other.unit'],
      ],
    ],
    [
      'revision "B" on 2026-10-02',
      [
        ['revision', 'keyword.other.field'],
        ['"B"', 'string.quoted.double'],
        ['on', 'keyword.other'],
        ['2026-10-02', 'constant.other.date'],
      ],
    ],
    [
      'link a <-> b',
      [
        ['link', 'keyword.other'],
        ['a', 'variable.other'],
        ['<->', 'keyword.operator'],
        ['b', 'variable.other'],
      ],
    ],
    [
      'насос-1 // why',
      [
        ['насос-1', 'variable.other'],
        ['// why', 'comment.line.double-slash'],
      ],
    ],
    ['set-1', [['set-1', 'variable.other']]],
  ] as [string, [string, string][]][])('%s', (text, expected) => expect(coloured(text)).toEqual(expected));

  test('a text with slots and escapes', () => {
    expect(coloured('"Close {} at {p.low} \\" {{"')).toEqual([
      ['"Close ', 'string.quoted.double'],
      ['{}', 'variable.other.slot'],
      [' at ', 'string.quoted.double'],
      ['{p.low}', 'variable.other.slot'],
      [' ', 'string.quoted.double'],
      ['\\"', 'constant.character.escape'],
      [' ', 'string.quoted.double'],
      ['{{', 'constant.character.escape'],
      ['"', 'string.quoted.double'],
    ]);
  });

  test('a text that is not closed ends with its line', () => {
    expect(coloured('note "open\nstop').at(-1)).toEqual(['stop', 'keyword.control']);
  });

  test('a comment over several lines', () => {
    expect(coloured('/* one\n two */ stop').map(([, scope]) => scope)).toEqual([
      'comment.block',
      'comment.block',
      'keyword.control',
    ]);
  });

  test.each(reservedWords)('the word %s, which is no name', (word) => {
    expect(coloured(word)[0]?.[1]).not.toBe('variable.other');
  });
});
