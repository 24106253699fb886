/** The way through a card that branches: its steps in blocks, with what is asked between them. Drawn from the program of the work copy. */
import type { Element } from 'hast';
import type { Exit, Job, JobLine, Move, MoveIndex, Unit } from '../../../shared/job.ts';
import type { Context } from '../context.ts';
import type { Program } from '../job/compile.ts';
import { inPrintedOrder, type Part, partsInside } from '../numbering.ts';
import { capitalised } from '../sentences/labels.ts';
import { type Arrow, type Box, graphPicture } from './graph.ts';
import { whole, wrapped } from './svg.ts';

/** More boxes than these are a maze and help nobody. */
const mostBoxes = 40;
/** Characters in a line of a box: the wider, the lower the picture. */
const boxWidths = [46, 34, 26];

interface Way {
  readonly to: MoveIndex;
  readonly label?: string;
  /** Taken when something is not as it must be. */
  readonly fails?: boolean;
}

/** Undefined for a card that goes straight on, and for one with too many branches to be drawn. */
export function flowPicture(program: Program, context: Context): Element | undefined {
  const { job } = program;
  const ways = job.moves.map((move) =>
    waysFrom(move, job, context).map((way) => ({ ...way, to: settled(way.to, job) })),
  );
  const reached = reachedFrom(settled(job.start, job), ways);
  if (![...reached].some((move) => (ways[move] ?? []).length > 1)) return undefined;
  const blocks = blocksOf(reached, ways, job, headings(program, context));
  if (blocks.length > mostBoxes) return undefined;
  const layouts = boxWidths.map((width) => ({
    boxes: blocks.map((block) => boxOf(block, job, width, context)),
    direction: 'TB' as const,
  }));
  const arrows = blocks.flatMap((block, from) => arrowsOf(block, from, blocks, ways));
  return graphPicture('flow', descriptionOf(layouts[0]?.boxes ?? [], arrows, context), arrows, layouts);
}

// ---------------------------------------------------------------- ways

function waysFrom(move: Move, job: Job, { words }: Context): readonly Way[] {
  const { step, picture } = words;
  switch (move.type) {
    case 'unit':
      return [{ to: move.next }, ...exitsOf(move, job).map((to) => ({ to, label: step.ifNot, fails: true }))];
    case 'ask':
      return [
        { to: move.yes, label: step.yes },
        { to: move.no, label: step.no },
      ];
    case 'choose':
      return move.ways.map(({ text, to }) => ({ to, label: text }));
    case 'loop':
      return [{ to: move.body }, { to: move.after, label: picture.afterRounds(move.times) }];
    case 'fork':
      return move.lanes.map((to) => ({ to }));
    case 'join':
      return [{ to: move.next }];
    default:
      return [];
  }
}

/** Where the checks of a unit lead when they fail; a stop is what a reader expects, and is not drawn. */
function exitsOf(unit: Unit, job: Job): readonly MoveIndex[] {
  const exits = [...unit.lines.flatMap(exitsOfLine), ...unit.keeps.flatMap((keep) => job.keeps[keep]?.exit ?? [])];
  const targets = exits
    .flatMap(({ to }) => (to === undefined ? [] : settled(to, job)))
    .filter((to) => job.moves[to]?.type !== 'stop');
  return [...new Set(targets)];
}

function exitsOfLine(line: JobLine): readonly Exit[] {
  const own = 'exit' in line && line.exit ? [line.exit] : [];
  return line.type === 'run' ? [...own, ...line.watches.map(({ exit }) => exit)] : own;
}

function settled(start: MoveIndex, job: Job): MoveIndex {
  const seen = new Set<MoveIndex>();
  let at = start;
  for (let move = job.moves[at]; move !== undefined && !seen.has(at); move = job.moves[at]) {
    seen.add(at);
    if (move.type === 'pass') at = move.next;
    else if (move.type === 'only') at = move.yes;
    else break;
  }
  return at;
}

type Ways = readonly (readonly Way[])[];

/** In the order in which a reader comes to them. */
function reachedFrom(start: MoveIndex, ways: Ways): ReadonlySet<MoveIndex> {
  const reached = new Set<MoveIndex>();
  const waiting = [start];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (reached.has(at)) continue;
    reached.add(at);
    waiting.push(...(ways[at] ?? []).map(({ to }) => to).reverse());
  }
  return reached;
}

// ---------------------------------------------------------------- blocks

/** Moves that follow one another without a choice, under one heading. */
interface Block {
  readonly heading: string;
  readonly moves: readonly MoveIndex[];
}

function blocksOf(
  reached: ReadonlySet<MoveIndex>,
  ways: Ways,
  job: Job,
  titles: ReadonlyMap<MoveIndex, string>,
): readonly Block[] {
  const comings = new Map<MoveIndex, number>();
  for (const at of reached) for (const { to } of ways[at] ?? []) comings.set(to, (comings.get(to) ?? 0) + 1);
  const blocks: { heading: string; moves: MoveIndex[] }[] = [];
  const taken = new Set<MoveIndex>();
  for (const at of reached) {
    if (taken.has(at)) continue;
    const block = { heading: titles.get(at) ?? '', moves: [at] };
    taken.add(at);
    for (let next = onlyNext(at, job); next !== undefined && !taken.has(next); next = onlyNext(next, job)) {
      if (
        (comings.get(next) ?? 0) > 1 ||
        job.moves[next]?.type !== 'unit' ||
        (titles.get(next) ?? '') !== block.heading
      )
        break;
      block.moves.push(next);
      taken.add(next);
    }
    blocks.push(block);
  }
  return blocks;
}

/** The move that follows a unit when all is as it must be; undefined where the card asks which way to go. */
function onlyNext(at: MoveIndex, job: Job): MoveIndex | undefined {
  const move = job.moves[at];
  return move?.type === 'unit' ? settled(move.next, job) : undefined;
}

/** The stage that each step stands in. */
function headings({ anchors }: Program, { input }: Context): ReadonlyMap<MoveIndex, string> {
  const titles = new Map<MoveIndex, string>();
  const visit = (part: Part, heading: string): void => {
    const move = anchors.get(part);
    if (move !== undefined) titles.set(move, heading);
    const own = part.type === 'stage' && heading === '' ? part.title : heading;
    for (const inner of partsInside(part)) visit(inner, own);
  };
  for (const part of inPrintedOrder(input.card)) visit(part, '');
  return titles;
}

// ---------------------------------------------------------------- drawing

function boxOf({ heading, moves }: Block, job: Job, boxWidth: number, { words }: Context): Box {
  const [first = 0] = moves;
  const move = job.moves[first];
  switch (move?.type) {
    case 'unit': {
      const units = moves.map((at) => job.moves[at] as Unit);
      const steps = units.map(({ step }) => step).filter((step) => step !== undefined);
      const range =
        steps.length > 0 ? whole(words.step.steps(Math.min(...steps), Math.max(...steps))) : (units.at(-1)?.name ?? '');
      return {
        lines: wrapped([heading, capitalised(range, words.tag)].filter(Boolean).join('\u00a0· '), boxWidth),
        shape: 'box',
      };
    }
    case 'ask':
      return { lines: wrapped(move.text, boxWidth), shape: 'question' };
    case 'choose':
      return { lines: wrapped(words.block.choose, boxWidth), shape: 'question' };
    case 'loop':
      return { lines: [words.picture.rounds(move.times)], shape: 'question' };
    case 'fork':
      return { lines: [words.picture.together], shape: 'box' };
    case 'join':
      return { lines: [words.picture.allDone], shape: 'box' };
    case 'stop':
      return { lines: [words.picture.stop], shape: 'end' };
    default:
      return { lines: [words.picture.finish], shape: 'end' };
  }
}

/** A block goes on where its last move does; where any of its checks leads, one arrow says. */
function arrowsOf({ moves }: Block, from: number, blocks: readonly Block[], ways: Ways): readonly Arrow[] {
  const last = moves[moves.length - 1];
  const out = moves.flatMap((move) => (ways[move] ?? []).filter(({ fails }) => move === last || fails));
  const seen = new Set<string>();
  return out.flatMap(({ to, label, fails }) => {
    const target = blocks.findIndex((block) => block.moves[0] === to);
    const key = `${target} ${label}`;
    if (target === -1 || seen.has(key)) return [];
    seen.add(key);
    return [{ from, to: target, ...(label !== undefined && { label }), ...(fails && { dashed: true }) }];
  });
}

function descriptionOf(boxes: readonly Box[], arrows: readonly Arrow[], { words }: Context): string {
  const name = (index: number) => boxes[index]?.lines.join(' ') ?? '';
  const sentences = arrows.map(({ from, to, label }) => words.picture.way(name(from), label, name(to)));
  return [words.picture.flow, ...sentences].join(' ');
}
