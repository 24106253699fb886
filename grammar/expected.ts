/**
 * What may stand next in a text, by the parser's own table of its grammar. The table is walked with all ways of reading
 * the words before; where a word fits none, the sentence that it departs from is left for one around it that it fits.
 */
import {
  Alternation,
  Alternative,
  type IProduction,
  NonTerminal,
  Option,
  Repetition,
  RepetitionMandatory,
  RepetitionMandatoryWithSeparator,
  RepetitionWithSeparator,
  Terminal,
  type TokenType,
  tokenMatcher,
} from 'chevrotain';
import { getOrInsert } from '../shared/maps.ts';
import { parser } from './parser.ts';
import { isFirstOnLine } from './scan.ts';
import { Name, OpenBrace, sentenceStarts, type Token, Word } from './tokens.ts';

/** A word that was read, and what it was read as. */
export interface ReadWord {
  readonly image: string;
  /** As the parser says it where it is missing: `the name of a gauge`. */
  readonly wanted: string | undefined;
}

export interface RuleBegun {
  readonly rule: string;
  /** The words read in it, the last first, without those of the rules in it. */
  readonly read: readonly ReadWord[];
  /** The rules read in it, the last first. */
  readonly done: readonly string[];
}

export interface Expected {
  readonly type: TokenType;
  readonly wanted: string | undefined;
  /** This rule and those around it, the innermost first. */
  readonly within: readonly RuleBegun[];
  /** For a word of the language: it, and what follows it where that can only be other such words: `at least`, `at most`. */
  readonly phrases: readonly string[];
}

/** A place in a rule, and the tokens and rules that lead on from it. */
interface State {
  readonly rule: string;
  readonly edges: Edge[];
}

type Edge =
  | { readonly type: 'token'; readonly token: TokenType; readonly wanted: string | undefined; readonly to: State }
  | { readonly type: 'rule'; readonly name: string; readonly to: State }
  | { readonly type: 'nothing'; readonly to: State }
  | { readonly type: 'end' };

/** A rule that is being read, and where it was begun. */
interface Frame {
  readonly back: State;
  readonly outer: Frame | undefined;
  /** What has been read in the outer rule so far. */
  readonly read: Words;
}

type Words = { readonly word: ReadWord | { readonly rule: string }; readonly earlier: Words } | undefined;

/** One way of reading the words so far. */
interface Way {
  readonly state: State;
  readonly frame: Frame | undefined;
  readonly read: Words;
}

type TokenEdge = Extract<Edge, { type: 'token' }>;

interface Next {
  readonly edge: TokenEdge;
  readonly way: Way;
}

/** More ways than this of reading half a sentence tell nothing that the first ones do not. */
const mostWays = 24;

const beginnings = new Map<string, State>();

function beginningOf(rule: string): State {
  return getOrInsert(beginnings, rule, () => {
    const production = parser.getGAstProductions()[rule];
    if (production === undefined) throw new Error(`There is no rule ${rule}.`);
    const end: State = { rule, edges: [{ type: 'end' }] };
    return inRow(production.definition, end);
  });
}

function inRow(productions: readonly IProduction[], to: State): State {
  return productions.reduceRight((next, production) => before(production, next), to);
}

function before(production: IProduction, to: State): State {
  const { rule } = to;
  const onward = (...ways: State[]): State => ({ rule, edges: ways.map((way) => ({ type: 'nothing', to: way })) });
  if (production instanceof Terminal) {
    const { terminalType: token, label } = production;
    const wanted = label === token.LABEL || label === token.name ? undefined : label;
    return { rule, edges: [{ type: 'token', token, wanted, to }] };
  }
  if (production instanceof NonTerminal)
    return { rule, edges: [{ type: 'rule', name: production.nonTerminalName, to }] };
  if (production instanceof Alternation)
    return onward(...production.definition.filter(isWritten).map((one) => before(one, to)));
  if (production instanceof Alternative) return inRow(production.definition, to);
  if (production instanceof Option) return onward(inRow(production.definition, to), to);
  return repeated(production, to);
}

/** An alternative of nothing stands for what is missing. */
function isWritten(alternative: IProduction): boolean {
  return alternative instanceof Alternative && alternative.definition.length > 0;
}

function repeated(production: IProduction, to: State): State {
  const again: State = { rule: to.rule, edges: [{ type: 'nothing', to }] };
  if (production instanceof Repetition) {
    again.edges.unshift({ type: 'nothing', to: inRow(production.definition, again) });
    return again;
  }
  if (production instanceof RepetitionMandatory) {
    const first = inRow(production.definition, again);
    again.edges.unshift({ type: 'nothing', to: first });
    return first;
  }
  if (production instanceof RepetitionWithSeparator || production instanceof RepetitionMandatoryWithSeparator) {
    const first = inRow(production.definition, again);
    again.edges.unshift({ type: 'token', token: production.separator, wanted: undefined, to: first });
    const isOptional = production instanceof RepetitionWithSeparator;
    return isOptional
      ? {
          rule: to.rule,
          edges: [
            { type: 'nothing', to: first },
            { type: 'nothing', to },
          ],
        }
      : first;
  }
  throw new Error(`A production that is not known: ${production.constructor.name}.`);
}

/** What may stand after these words, each once for each way of reading them. */
export function expectedAfter(text: string, words: readonly Token[]): Expected[] {
  let ways: Way[] = [{ state: beginningOf('file'), frame: undefined, read: undefined }];
  for (const word of words) ways = waysAfter(ways, word, isFirstOnLine(text, word.startOffset));
  return ways.flatMap((way) => nextOf(way)).map(expectedAt);
}

function waysAfter(ways: Way[], word: Token, beginsLine: boolean): Way[] {
  const direct = fitting(ways, word);
  const mustBegin = beginsLine && sentenceStarts.has(word.tokenType);
  const taken = mustBegin ? direct.filter(({ edge }) => !isAnyWord(edge.token)) : direct;
  if (taken.length > 0) return taken.slice(0, mostWays).map((next) => stepOver(next, word));
  const around = elsewhere(ways, word);
  const chosen = around ? [around] : direct;
  return chosen.length > 0 ? chosen.map((next) => stepOver(next, word)) : ways;
}

function isAnyWord(type: TokenType): boolean {
  return type === Name || type === Word;
}

function fitting(ways: readonly Way[], word: Token): Next[] {
  return ways.flatMap((way) => nextOf(way, word));
}

/** Where the word fits once what is missing before it is taken for written: in the innermost rule where it does. */
function elsewhere(ways: readonly Way[], word: Token): Next | undefined {
  for (let around = ways; around.length > 0; around = around.flatMap(outOf)) {
    const later = around.flatMap((way) => laterStates(way.state).map((state) => ({ ...way, state })));
    const found = fitting(later, word).find(({ edge }) => !isAnyWord(edge.token));
    if (found) return found;
  }
  return undefined;
}

function outOf({ frame }: Way): Way[] {
  return frame ? [backIn(frame)] : [];
}

/** A state, and all that come after it in its rule. */
function laterStates(from: State): State[] {
  const states = new Set([from]);
  for (const { edges } of states) for (const edge of edges) if (edge.type !== 'end') states.add(edge.to);
  return [...states];
}

/** The tokens that a way goes on with; of these one that the word is, where there is a word. Thousands of rules may end one in the other. */
function nextOf(way: Way, word?: Token): Next[] {
  const found: Next[] = [];
  const waiting = edgesOf(way, word);
  for (let one = waiting.pop(); one; one = waiting.pop()) {
    const { edge } = one;
    if (edge.type !== 'token') waiting.push(...edgesOf(onward(edge, one.way), word));
    else if (!word || tokenMatcher(word, edge.token)) found.push({ edge, way: one.way });
  }
  return found;
}

/** The last first; none where the word cannot come of them. */
function edgesOf(way: Way | undefined, word: Token | undefined): { readonly edge: Edge; readonly way: Way }[] {
  if (!way || (word && !mayPass(way.state, word.tokenType))) return [];
  return way.state.edges.map((edge) => ({ edge, way })).reverse();
}

function onward(edge: Exclude<Edge, TokenEdge>, way: Way): Way | undefined {
  switch (edge.type) {
    case 'nothing':
      return { ...way, state: edge.to };
    case 'rule':
      return {
        state: beginningOf(edge.name),
        frame: { back: edge.to, outer: way.frame, read: way.read },
        read: undefined,
      };
    case 'end':
      return way.frame && afterRule(way.frame, way.state.rule);
  }
}

const passes = new Map<State, Map<TokenType, boolean>>();

/** Whether a token of this type may come next in the rule of the state, or the rule may end there. */
function mayPass(state: State, type: TokenType): boolean {
  const known = getOrInsert(passes, state, () => new Map());
  const before = known.get(type);
  if (before !== undefined) return before;
  known.set(type, false);
  const may = state.edges.some((edge) => {
    if (edge.type === 'end') return true;
    if (edge.type === 'token')
      return edge.token === type || edge.token.categoryMatchesMap?.[type.tokenTypeIdx as number];
    return mayPass(edge.type === 'rule' ? beginningOf(edge.name) : edge.to, type);
  });
  known.set(type, may);
  return may;
}

function backIn({ back, outer, read }: Frame): Way {
  return { state: back, frame: outer, read };
}

function afterRule(frame: Frame, rule: string): Way {
  return { ...backIn(frame), read: { word: { rule }, earlier: frame.read } };
}

function stepOver({ way, edge: { wanted, to } }: Next, { image }: Token): Way {
  return { ...way, state: to, read: { word: { image, wanted }, earlier: way.read } };
}

function expectedAt({ edge, way }: Next): Expected {
  const within: RuleBegun[] = [];
  for (let at: Way | undefined = way; at; at = at.frame && backIn(at.frame)) within.push(begunBy(at));
  return { type: edge.token, wanted: edge.wanted, within, phrases: isWordOfLanguage(edge) ? phrasesFrom(edge) : [] };
}

function begunBy({ state: { rule }, read: last }: Way): RuleBegun {
  const read: ReadWord[] = [];
  const done: string[] = [];
  for (let one = last; one; one = one.earlier) {
    if ('rule' in one.word) done.push(one.word.rule);
    else read.push(one.word);
  }
  return { rule, read, done };
}

function phrasesFrom({ token, to }: TokenEdge): string[] {
  const label = token.LABEL as string;
  const nexts = nextOf({ state: to, frame: undefined, read: undefined }).map(({ edge }) => edge);
  const words = nexts.filter(isWordOfLanguage);
  // A block may stand there as well: the first word alone leads to it.
  const blocks = nexts.filter((edge) => edge.token === OpenBrace);
  if (mayEnd(to) || words.length === 0 || words.length + blocks.length < nexts.length) return [label];
  return [...words.flatMap(phrasesFrom).map((phrase) => `${label} ${phrase}`), ...blocks.map(() => label)];
}

function isWordOfLanguage({ token }: TokenEdge): boolean {
  return token.LABEL !== undefined && /^\p{L}/u.test(token.LABEL);
}

function mayEnd({ edges }: State): boolean {
  return edges.some((edge) => edge.type === 'end' || (edge.type === 'nothing' && mayEnd(edge.to)));
}
