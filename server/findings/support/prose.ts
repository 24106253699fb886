/** The sentences that a reader of the card will act on or be warned by. */
import { all, type Node } from '../../../grammar/navigate.ts';
import type { Declaration, File, Text } from '../../../grammar/syntax.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Settings } from '../../../shared/settings.ts';
import { matchesOf, type Place } from '../../../shared/text.ts';
import type { FileFacts, Found, InTexts } from '../finding.ts';
import { remembering, type Sentence, sentencesOf, within } from './sentences.ts';

export interface Prose {
  readonly text: Text;
  /** The statement or declaration that says it. */
  readonly by: Node;
  readonly of: 'step' | 'admonition' | 'question';
}

/** A sentence that tells nobody to do anything begins with one of these. */
export const noInstruction = /^(?:the|a|an|this|these|that|those|it|they|there|all|each|both)\b|\s=\s/i;

const known = new WeakMap<File, ReadonlyMap<Text, Prose>>();

const saying = ['step', 'admonition', 'hazard', 'check', 'if', 'repeat'] as const;

/**
 * All prose of a file in the order of the text; several findings read it, so each tree is walked once. They know English: a card in
 * another language is left out.
 */
export function proseOf(file: File): ReadonlyMap<Text, Prose> {
  return getOrInsert(
    known,
    file,
    () =>
      new Map(
        file.declarations
          .filter((declaration) => !isForeign(declaration))
          .flatMap((declaration) => saying.flatMap((type) => all(declaration, type).flatMap(proseAt)))
          .sort((a, b) => a.text.start - b.text.start)
          .map((prose) => [prose.text, prose]),
      ),
  );
}

interface ReadSentence extends Prose {
  readonly sentence: Sentence;
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
export function inSentences<What extends Seen>({ only, see, tell }: Look<What>): InTexts<Prose> {
  const looks = new WeakMap<Settings, (sentence: string) => readonly What[]>();
  return {
    texts: ({ parsed }) => proseOf(parsed.file),
    *inText(prose, facts) {
      if (only !== undefined && prose.of !== only) return;
      const { file, parsed, settings } = facts;
      const look = getOrInsert(looks, settings, () => remembering(see(settings)));
      for (const sentence of sentencesOf(prose.text, parsed.text)) {
        for (const seen of look(sentence.text)) {
          const place = { file, ...within(sentence, seen.from, seen.words.length) };
          const told = tell(seen, { ...prose, sentence, place }, facts);
          if (told) yield { place, ...told };
        }
      }
    },
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
      return node.parts.flatMap((part) => proseIn(part, 'step', node));
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
