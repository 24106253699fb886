/** The sentences that a reader of the card will act on or be warned by. */
import { all, type Node, type NodeOf } from '../../../grammar/navigate.ts';
import type { Declaration, File, Parsed, SyntaxNode, Text } from '../../../grammar/syntax.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Settings } from '../../../shared/settings.ts';
import { matchesOf, type Place } from '../../../shared/text.ts';
import type { FileFacts, FindingSort, Found } from '../finding.ts';
import { remembering, type Sentence, sentencesOf, within } from './sentences.ts';

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
  return getOrInsert(known, file, () =>
    file.declarations
      .filter((declaration) => !isForeign(declaration))
      .flatMap((declaration) => outsideSteps(declaration, 'admonition', 'hazard', 'check', 'if', 'repeat'))
      .flatMap(proseAt),
  );
}

/** The steps in a node and what stands outside them, in the order of the text. What a step holds is read with it. */
export function outsideSteps<Type extends Node['type']>(root: SyntaxNode, ...types: Type[]): NodeOf<Type | 'step'>[] {
  let stepEnd = 0;
  return (['step', ...types] as const)
    .flatMap((type): readonly NodeOf<Type | 'step'>[] => all(root, type))
    .sort((a, b) => a.start - b.start)
    .filter((node) => {
      const outside = node.start >= stepEnd;
      if (outside && node.type === 'step') stepEnd = node.end;
      return outside;
    });
}

interface ReadSentence extends Prose {
  readonly sentence: Sentence;
}

const knownSentences = new WeakMap<Parsed, readonly ReadSentence[]>();
const knownOfProse = new WeakMap<
  Prose,
  { readonly sentences: readonly Sentence[]; readonly read: readonly ReadSentence[] }
>();

/** Each sentence of the prose of a file, or of one sort of it. */
export function sentencesToRead(parsed: Parsed, only?: Prose['of']): readonly ReadSentence[] {
  const all = getOrInsert(knownSentences, parsed, () => sentencesIn(parsed));
  return only === undefined ? all : all.filter(({ of }) => of === only);
}

function sentencesIn({ file, text: source }: Parsed): ReadSentence[] {
  return proseOf(file).flatMap((prose) => {
    const sentences = sentencesOf(prose.text, source);
    const known = knownOfProse.get(prose);
    if (known?.sentences === sentences) return known.read;
    const read = sentences.map((sentence) => ({ ...prose, sentence }));
    knownOfProse.set(prose, { sentences, read });
    return read;
  });
}

/** The words of a sentence that a finding is about. */
export interface Seen {
  readonly from: number;
  readonly words: string;
}

/** What was found in a sentence, or in what stands so far behind its beginning. */
export function seenAt(found: RegExpExecArray | null | undefined, behind = 0): Seen[] {
  return found ? [{ from: behind + found.index, words: found[0] }] : [];
}

export function allSeen(what: RegExp | undefined, sentence: string): Seen[] {
  return what ? matchesOf(what, sentence).flatMap((found) => seenAt(found)) : [];
}

interface Look<What extends Seen> {
  /** The prose that is looked at, if not all. */
  readonly only?: Prose['of'];
  /** It is given all that it may hang on: what it sees in a sentence is the same in the next version of a file, and in another one. */
  readonly see: (settings: Settings) => (sentence: string) => Iterable<What>;
  /** Nothing where what stands around the sentence makes it right. */
  readonly tell: (
    seen: What,
    where: ReadSentence & { readonly place: Place },
    facts: FileFacts,
  ) => Omit<Found, 'place'> | undefined;
}

/** The check of a finding that looks at each sentence by itself. */
export function inSentences<What extends Seen>({ only, see, tell }: Look<What>): NonNullable<FindingSort['inFile']> {
  const looks = new WeakMap<Settings, (sentence: string) => readonly What[]>();
  return function* (facts) {
    const { file, parsed, settings } = facts;
    const look = getOrInsert(looks, settings, () => remembering(see(settings)));
    for (const read of sentencesToRead(parsed, only)) {
      for (const seen of look(read.sentence.text)) {
        const place = { file, ...within(read.sentence, seen.from, seen.words.length) };
        const told = tell(seen, { ...read, place }, facts);
        if (told) yield { place, ...told };
      }
    }
  };
}

function isForeign(declaration: Declaration): boolean {
  return (
    declaration.type === 'card' &&
    declaration.fields.some((field) => field.type === 'language' && !/^en\b/i.test(field.text?.value ?? 'en'))
  );
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
