/** What a writer accepts, as the finished card says it. */
import type { Element, Nodes } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { expect, test } from 'vitest';
import type { Settings } from '../../../shared/settings.ts';
import { mainFile, openText } from '../../support/check.ts';

const drain = 'item drain : valve "the drain" normally closed\n';
const card = (name: string, body: string) =>
  `card ${name} "Drain it" { number "${name}" revision "A" crew one "One"\n${body}\n}\n`;

/** The cells of the table of accepted deviations, a row at a time; its page is the one of the card named c. */
function deviations(text: string, settings: Partial<Settings> = {}): string[][] {
  const [rendered] = openText(drain + text, { settings }).render(mainFile, { card: 'c' });
  const [section] = elements(fromHtml(rendered?.html ?? '')).filter(({ properties }) => isAccepted(properties));
  const rows = section ? elements(section).filter(({ tagName }) => tagName === 'tr') : [];
  return rows.slice(1).map((row) => row.children.map(textOf));
}

const isAccepted = ({ className }: Element['properties']) => Array.isArray(className) && className.includes('accepted');
const elements = (node: Nodes): Element[] => [
  ...(node.type === 'element' ? [node] : []),
  ...('children' in node ? node.children.flatMap(elements) : []),
];
const textOf = (node: Nodes): string =>
  node.type === 'text' ? node.value : 'children' in node ? node.children.map(textOf).join('') : '';

test('says where, what was found with its code, why it stays, and who accepts it', () => {
  const text = card(
    'c',
    `step "Look at the drain."
     step { set drain open accept safety.left-changed because "The next shift shuts it." by "R. Amsel, quality" }`,
  );
  expect(deviations(text)).toEqual([
    [
      'step 2',
      expect.stringMatching(/^The drain may still be open .*safety\.left-changed$/),
      'The next shift shuts it.',
      'R. Amsel, quality',
    ],
  ]);
});

test('leaves a blank for the name where none is given, or none that can be read', () => {
  for (const name of ['', ' by ""', ' by "…"']) {
    const text = card('c', `step { set drain open accept safety.left-changed because "It is asked for."${name} }`);
    expect(deviations(text).map((row) => row.at(-1))).toEqual(['']);
  }
});

test('has a row for each finding that is accepted in one place, at its own step', () => {
  const text = card(
    'c',
    `accept prose.vague because "The gauge says it." by "R. Amsel"
     step "Let sufficient water run." step "Look." step "Let adequate air in."`,
  );
  expect(deviations(text).map(([where]) => where)).toEqual(['step 1', 'step 3']);
});

test('has no row for what the settings switch off, nor for another card of the file', () => {
  const vague = 'step { accept prose.vague because "It is asked for." }';
  const other = card('d', `accept prose.vague because "It is asked for." step "Let adequate air in."`);
  const text = card('c', 'step "Let sufficient water run." { accept prose.vague because "Asked for." }');
  expect(deviations(text + other)).toHaveLength(1);
  const off = deviations(text, { levels: { 'prose.vague': 'off' } });
  expect(off.map((row) => row[1])).toEqual(['prose.vague']);
  expect(deviations(card('c', vague)).map((row) => row[1])).toEqual(['prose.vague']);
});
