/** The blanks that a text has at its numbers and, in its language, at signs of punctuation, put into all that a card says: no sentence knows of them. */
import type { ElementContent } from 'hast';
import { literally } from '../../../shared/text.ts';
import { unitSpellings, units } from '../../../shared/units.ts';
import type { FixedWords } from './words.ts';

type Typeset = Pick<FixedWords, 'typeset'>;

/** What is read out or shown of an element, beside the text in it. */
const saidIn = ['alt', 'title', 'ariaLabel', 'ariaDescription'] as const;

const printed = [...new Set([...units.map((unit) => unit.printed), ...unitSpellings])];
const beforeUnit = new RegExp(`(?<=\\d) (?=(?:${printed.map(literally).join('|')})(?![\\p{L}\\p{N}]))`, 'gu');

/** A number and its unit stay on one line. */
const together = (text: string) => text.replaceAll(beforeUnit, '\u00a0');

export function typesetText(text: string, words: Typeset): string {
  return together(words.typeset?.(text) ?? text);
}

export function typeset(content: readonly ElementContent[], words: Typeset): ElementContent[] {
  return content.map((node) => typesetNode(node, (text) => typesetText(text, words)));
}

function typesetNode(node: ElementContent, set: (text: string) => string): ElementContent {
  if (node.type === 'text') return { ...node, value: set(node.value) };
  if (node.type !== 'element') return node;
  const said = saidIn.flatMap((name) => {
    const value = node.properties[name];
    return typeof value === 'string' ? [[name, set(value)] as const] : [];
  });
  return {
    ...node,
    properties: { ...node.properties, ...Object.fromEntries(said) },
    children: node.children.map((child) => typesetNode(child, set)),
  };
}

/** Every text in plain data, in which a blank before a unit stays what it was entered with. */
export function typesetTexts<Data>(data: Data, { typeset: set }: Typeset): Data {
  if (!set) return data;
  return JSON.parse(JSON.stringify(data), (_, value) => (typeof value === 'string' ? set(value) : value));
}
