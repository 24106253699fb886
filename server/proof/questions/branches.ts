import type { Action, Gauge, Item, Statement } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Place } from '../../../shared/text.ts';
import type { Asker } from '../exploring/ask.ts';
import type { Things } from '../meaning/things.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Node, Question } from '../slicing/question.ts';

/** A condition that the paths reach, and what they find there. */
export interface BranchFact {
  readonly statement: Statement | Action;
  readonly place: Place;
  /** A check, reading or the like stops or leaves when it fails; an `if` goes on another way. */
  readonly form: 'check' | 'if';
  readonly passes: boolean;
  readonly fails: boolean;
}

/** Conditional moves that some path takes, and those that some path comes to and cannot take. */
export interface Ways {
  readonly taken: Set<number>;
  readonly refused: Set<number>;
}

/**
 * One question for all the conditions that look at the same things: which of their ways can be taken at all? Readings come
 * first: they are mostly open both ways, and what is open need not be looked at by the questions that follow.
 */
function branchQuestions(index: FlowIndex, { taken, refused }: Ways): Question[] {
  const groups = new Map<string, { items: Item[]; gauges: Gauge[]; moves: number[] }>();
  for (const moveIndex of index.at('assume')) {
    const things = index.thingsAt(moveIndex);
    const items = [...things.items].sort((a, b) => a.id - b.id);
    const gauges = [...things.gauges].sort((a, b) => a.id - b.id);
    const key = `${items.map((item) => item.id)} | ${gauges.map((gauge) => gauge.id)}`;
    getOrInsert(groups, key, () => ({ items, gauges, moves: [] })).moves.push(moveIndex);
  }
  return [...groups.values()]
    .sort((a, b) => a.items.length - b.items.length)
    .map(({ items, gauges, moves }) => ({
      items,
      gauges,
      monitors: [],
      watches: () => moves,
      look: ({ node, moveIndex, after }) => {
        if (after(node.state).length > 0) taken.add(moveIndex);
        else refused.add(moveIndex);
      },
    }));
}

/** Tells later questions which ways are open in every state; blended states would call too many so. */
function noteFreeMoves(index: FlowIndex, question: Question, { taken, refused }: Ways, nodes: readonly Node[]): void {
  if (nodes.some((node) => node.blended)) return;
  for (const move of question.watches(index)) {
    if (taken.has(move) && !refused.has(move)) index.free.add(move);
  }
}

/** A question about conditions, and the gauges that it follows; undefined until it is asked, and where it must be asked again. */
interface AskedBranch {
  readonly question: Question;
  follows?: ReadonlySet<Gauge> | undefined;
}

/** Asks which conditions let paths through. All other questions come after: what they leave out hangs on it. */
export class BranchProver {
  private readonly ways: Ways = { taken: new Set(), refused: new Set() };
  private readonly questions: readonly AskedBranch[];
  private isProved = false;
  private explored = 0;

  constructor(private readonly index: FlowIndex) {
    this.questions = branchQuestions(index, this.ways).map((question) => ({ question }));
  }

  /** `areNew`: nobody has asked before, or the conditions now let other paths through. */
  *prove(asker: Asker): InParts<{ readonly ways: Ways; readonly areNew: boolean; readonly explored: number }> {
    let areNew = true;
    if (this.isProved) {
      const stale = this.questions.filter(({ follows }) => !follows);
      const before = this.answersOf(stale);
      yield* this.ask(stale, asker);
      areNew = before !== this.answersOf(stale);
    }
    if (areNew) {
      yield* this.ask(this.questions, asker);
      for (const one of this.questions) one.follows = this.deciding(one);
    }
    this.isProved = true;
    return { ways: this.ways, areNew, explored: this.explored };
  }

  forget(gauge: Gauge): void {
    for (const one of this.questions) if (one.follows?.has(gauge)) one.follows = undefined;
  }

  /** Those who were asked first did not know yet which ways are always open: what hangs on a gauge by such ways alone does not hang on it. */
  private deciding({ question, follows }: AskedBranch): ReadonlySet<Gauge> {
    const { index } = this;
    const isAlone = ({ items, gauges }: Things) => items.size === 0 && gauges.size === 1;
    const decides = (gauge: Gauge) =>
      !index.movesOfGauge(gauge).every((move) => index.free.has(move) && isAlone(index.thingsAt(move)));
    return new Set([...(follows ?? [])].filter((gauge) => question.gauges.includes(gauge) || decides(gauge)));
  }

  private answersOf(some: readonly AskedBranch[]): string {
    return some
      .flatMap(({ question }) => question.watches(this.index))
      .map((move) => this.sets.map((set) => set.has(move)).join())
      .join(' ');
  }

  private *ask(some: readonly AskedBranch[], asker: Asker): InParts<void> {
    for (const { question } of some)
      for (const move of question.watches(this.index)) for (const set of this.sets) set.delete(move);
    for (const one of some) {
      const { slice, places } = yield* asker.ask(one.question);
      this.explored += places.nodes.length;
      noteFreeMoves(this.index, one.question, this.ways, places.nodes);
      one.follows = new Set(slice.gauges);
      yield;
    }
  }

  private get sets(): readonly Set<number>[] {
    return [this.ways.taken, this.ways.refused, this.index.free];
  }
}
