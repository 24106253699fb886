/**
 * What sort of word each word of an English sentence is, by a library that is read into memory only when a sentence that names
 * something of the equipment first needs it.
 */

import pluralize from 'pluralize';
import { capital, matchesOf } from '../../shared/text.ts';
import type { Token } from './tokens.ts';

export interface Sort {
  /** A verb in its plain form: `closing` gives `close`. */
  readonly root?: string;
  /** It may be a part of what something is called. */
  readonly noun: boolean;
  /** It is what something is called, or what it does, in a name: `landing gear door`. */
  readonly names: boolean;
  /** A form that ends in -ing. */
  readonly going: boolean;
}

interface Term {
  readonly text: string;
  readonly tags: readonly string[];
  readonly root?: string;
}

type Library = (text: string) => {
  compute(what: 'root'): { json(options: object): { readonly terms: readonly Term[] }[] };
};

/** Calling it in the midst of a program, not at its head, is what keeps the library out of the start. */
declare function require(name: 'compromise/two'): Library | { readonly default: Library };

let library: Library | undefined;

function loaded(): Library {
  if (library) return library;
  const module = require('compromise/two');
  library = 'default' in module ? module.default : module;
  return library;
}

const own = /^(?:its|their|his|her|your|our|my)$/i;
const mostKept = 2000;
const known = new Map<string, ReadonlyMap<number, Sort>>();

/** The words of a sentence by where they begin. */
export function sortsOf(sentence: string): ReadonlyMap<number, Sort> {
  const before = known.get(sentence);
  if (before) return before;
  if (known.size > mostKept) known.clear();
  const sorts = sorted(sentence);
  known.set(sentence, sorts);
  return sorts;
}

function sorted(sentence: string): ReadonlyMap<number, Sort> {
  const sorts = new Map<number, Sort>();
  const lower = sentence.toLowerCase();
  let from = 0;
  for (const { text, tags, root } of loaded()(sentence)
    .compute('root')
    .json({ text: true, terms: { root: true } })
    .flatMap(({ terms }) => terms)) {
    const at = lower.indexOf(text.toLowerCase(), from);
    if (text === '' || at < 0) continue;
    from = at + text.length;
    const verb = tags.includes('Verb') || tags.includes('Gerund');
    sorts.set(at, {
      ...(verb && { root: root ?? text.toLowerCase() }),
      noun: tags.some((tag) => tag === 'Noun' || tag === 'Adjective' || tag === 'Value' || tag === 'Possessive'),
      names:
        (tags.includes('Noun') && !own.test(text) && !tags.includes('Pronoun') && !tags.includes('Value')) ||
        tags.includes('Gerund'),
      going: tags.includes('Gerund'),
    });
  }
  return sorts;
}

/** The plain form of a participle: `closed` gives `close`. */
export function verbOf(participle: string): string {
  const sentence = `It must be ${participle}.`;
  return sortsOf(sentence).get(sentence.indexOf(participle, 11))?.root ?? participle;
}

/** Whether they may do that, or it does: `grease`, `drops`. */
export function mayBeVerb(word: string, subject: 'It' | 'They'): boolean {
  return sortsOf(`${subject} ${word.toLowerCase()} it.`).get(subject.length + 1)?.root !== undefined;
}

/** What somebody does as an order: `opens the valve and looks` gives `Open the valve and look`. Undefined where it begins with no verb. */
export function orderOf(done: string): string | undefined {
  const subject = 'He ';
  const sorts = sortsOf(subject + done);
  const end = done.search(/[:;.(]|\b(?:which|that|who|until|while|if|when|because)\b|(?:,|\band)\s+(?:it|they)\b/i);
  const reach = end < 0 ? done.length : end;
  let order = '';
  let from = 0;
  for (const { 0: word, index } of matchesOf(/\p{L}+/gu, done)) {
    const leads = index === 0 || (index < reach && /(?:,|\band|\bthen|\bor)\s+$/u.test(done.slice(0, index)));
    const root = leads
      ? rootOfThird(word, sorts.get(subject.length + index), done.slice(index + word.length))
      : undefined;
    if (root === undefined) {
      if (index === 0) return undefined;
      continue;
    }
    order += done.slice(from, index) + root;
    from = index + word.length;
  }
  order += done.slice(from);
  return capital(order);
}

/** `opens` gives `open`; a word that is taken for a thing counts where something follows that it is done to. */
function rootOfThird(word: string, sort: Sort | undefined, after: string): string | undefined {
  if (!/(?<!^(?:i|ha|doe|wa|thi))s$/i.test(word)) return undefined;
  if (sort?.root !== undefined) return sort.root;
  if (
    !/^\s+(?:the|an?|it|them|all|both|each|every|at|out|off|up|down|away|after|through|back|\p{Lu})(?![\p{Ll}])/u.test(
      after,
    )
  )
    return undefined;
  return sortsOf(`He ${word} it`).get(3)?.root ?? singular(word);
}

const singulars = new Map<string, string>();

export function singular(word: string): string {
  const before = singulars.get(word);
  if (before !== undefined) return before;
  if (singulars.size > mostKept) singulars.clear();
  const one = pluralize.singular(word);
  singulars.set(word, one);
  return one;
}

export function isNoun(token: Token, sentence: string): boolean {
  return sortsOf(sentence).get(token.start)?.noun ?? false;
}
