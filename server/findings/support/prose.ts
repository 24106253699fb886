/** The sentences that a reader of the card will act on or be warned by. */
import { type Node, walk } from '../../../grammar/navigate.ts';
import type { Card, File, Parsed, Text } from '../../../grammar/syntax.ts';
import { type Sentence, sentencesOf } from './sentences.ts';

export interface Prose {
  readonly text: Text;
  /** The statement or declaration that says it. */
  readonly by: Node;
  readonly of: 'step' | 'admonition' | 'question';
}

/** A sentence that tells nobody to do anything begins with one of these. */
export const noInstruction = /^(?:the|a|an|this|these|that|those|it|they|there|all|each|both)\b|\s=\s/i;

const known = new WeakMap<File, readonly Prose[]>();

/**
 * All prose of a file in the order of the text; several findings read it, so each tree is walked once. They know English: a card in
 * another language is left out.
 */
export function proseOf(file: File): readonly Prose[] {
  const before = known.get(file);
  if (before) return before;
  const prose: Prose[] = [];
  walk(file, (node) => {
    if (node.type === 'card' && isForeign(node)) return false;
    prose.push(...proseAt(node));
    return node.type !== 'step';
  });
  known.set(file, prose);
  return prose;
}

interface ReadSentence extends Prose {
  readonly sentence: Sentence;
}

const knownSentences = new WeakMap<Parsed, readonly ReadSentence[]>();

/** Each sentence of the prose of a file, or of one sort of it. */
export function sentencesToRead(parsed: Parsed, only?: Prose['of']): readonly ReadSentence[] {
  const all = knownSentences.get(parsed) ?? sentencesIn(parsed);
  knownSentences.set(parsed, all);
  return only === undefined ? all : all.filter(({ of }) => of === only);
}

function sentencesIn({ file, text: source }: Parsed): ReadSentence[] {
  return proseOf(file).flatMap((prose) => sentencesOf(prose.text, source).map((sentence) => ({ ...prose, sentence })));
}

function isForeign({ fields }: Card): boolean {
  return fields.some((field) => field.type === 'language' && !/^en\b/i.test(field.text?.value ?? 'en'));
}

function proseAt(node: Node): Prose[] {
  switch (node.type) {
    case 'step':
      return [...node.parts.flatMap((part) => proseIn(part, 'step', node)), ...node.actions.flatMap(proseAt)];
    case 'admonition':
    case 'hazard':
      return proseIn(node.text, 'admonition', node);
    case 'check':
    case 'if':
    case 'repeat':
      return proseIn(node.question, 'question', node);
    default:
      return [];
  }
}

function proseIn(node: Node | undefined, of: Prose['of'], by: Node): Prose[] {
  return node?.type === 'text' ? [{ text: node, by, of }] : [];
}
