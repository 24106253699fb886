/** The blanks that a language has at its signs of punctuation, put into all that a card says: no sentence knows of them. */
import type { ElementContent } from 'hast';
import type { FixedWords } from './words.ts';

type Typeset = Pick<FixedWords, 'typeset'>;

/** What is read out or shown of an element, beside the text in it. */
const saidIn = ['alt', 'title', 'ariaLabel', 'ariaDescription'] as const;

export function typeset(content: readonly ElementContent[], words: Typeset): ElementContent[] {
  const set = words.typeset;
  return set ? content.map((node) => typesetNode(node, set)) : [...content];
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

/** Every text in plain data. */
export function typesetTexts<Data>(data: Data, { typeset: set }: Typeset): Data {
  if (!set) return data;
  return JSON.parse(JSON.stringify(data), (_, value) => (typeof value === 'string' ? set(value) : value));
}
