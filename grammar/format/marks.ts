/** What the formatter wants to know of the tree: where sentences begin, where they may go on, where columns are. */
import type { Span } from '../../shared/text.ts';
import { type Node, type NodeOf, walk } from '../navigate.ts';
import type { Declaration } from '../syntax.ts';
import type { Piece } from './pieces.ts';

/** A place in a row from which on the text stands under that of the rows above and below. */
export interface Column {
  /** Undefined where this row has not got the column. */
  readonly piece: number | undefined;
  /** The fewest blanks before it. */
  readonly gap: number;
}

export interface Row {
  /** Rows of one sort that follow one another are aligned. */
  readonly sort: string;
  readonly columns: readonly Column[];
}

/** All numbers are indices of pieces. */
export interface Marks {
  /** Pieces that begin a line, or a part between braces on one line. */
  readonly sentences: Set<number>;
  /** Pieces that may go on with a sentence on a new line, where the writer broke it. */
  readonly soft: Set<number>;
  /** Pieces with no blank before them. */
  readonly tight: Set<number>;
  /** Opening braces that always end their line. */
  readonly tall: Set<number>;
  /** Opening braces whose inside stands further in than the line they end, where that line goes on with a sentence. */
  readonly hanging: Set<number>;
  /** Rows by the piece that begins them. */
  readonly rows: Map<number, Row>;
}

/** Finds pieces by offsets of the tree; comments are passed over. */
interface Finder {
  readonly at: (start: number | undefined) => number | undefined;
  readonly before: (start: number | undefined) => number | undefined;
  readonly after: (end: number | undefined) => number | undefined;
}

type Wanted = number | undefined;

/** What a node adds to the marks. */
interface Marking {
  readonly sentences?: readonly Wanted[];
  readonly soft?: readonly Wanted[];
  readonly tight?: readonly Wanted[];
  readonly tall?: Wanted;
  readonly hanging?: Wanted;
  readonly row?: { readonly sort: string; readonly columns: readonly (readonly [piece: Wanted, gap: number])[] };
}

type Markers = { readonly [Type in Node['type']]?: (node: NodeOf<Type>, find: Finder) => Marking };

const starts = (nodes: readonly { readonly start: number }[], { at }: Finder): Wanted[] =>
  nodes.map((node) => at(node.start));

/** The first word of a field, then its text. */
const field = (node: Node, { at, after }: Finder): Marking => {
  const first = at(node.start);
  return first === undefined ? {} : { row: { sort: 'field', columns: [[after(node.start + 1), 1]] } };
};

const fieldWithReason = (node: NodeOf<'assume' | 'leaves'>, find: Finder): Marking => ({
  ...field(node, find),
  soft: [find.before(node.because?.start)],
});

const terms = (node: NodeOf<'or' | 'and'>, { before }: Finder): Marking => ({
  soft: node.terms.slice(1).map((term) => before(term.start)),
});

/** An action or statement with an `else` and what to do then. */
const withElse = (node: { readonly otherwise?: { readonly start: number } }, { before }: Finder): Marking => ({
  soft: [before(node.otherwise?.start)],
});

const withMend = (node: NodeOf<'check' | 'read' | 'bring' | 'wait'>, find: Finder): Marking => ({
  soft: [find.before(node.mend?.start), find.before(node.otherwise?.start)],
});

const markers: Markers = {
  kind: ({ name, states }, find) => ({
    sentences: starts(states, find),
    row: { sort: 'kind', columns: [[find.after(name?.end), 1]] },
  }),
  'kind-state': ({ others = [] }, { before }) => ({ soft: others.map(({ start }) => before(start)) }),
  item: ({ names, kind, label, parts }, find) => ({
    soft: [
      ...starts(parts, find),
      ...starts(
        names.slice(1).map(({ name }) => name),
        find,
      ),
    ],
    row: {
      sort: 'item',
      columns: [
        [find.before(kind?.start), 1],
        [find.at(label?.start), 1],
        [find.at(parts[0]?.start), 2],
      ],
    },
  }),
  may: ({ when }, { before }) => ({ soft: [before(when?.start)] }),
  duties: ({ start, duties }, find) => ({ sentences: starts(duties, find), hanging: find.at(start) }),
  gauge: ({ parts }, find) => ({ sentences: starts(parts, find) }),
  limit: ({ name, rows }, find) => ({
    sentences: starts(
      rows.map(({ when }) => when),
      find,
    ),
    tight: rows.map(({ bound }) => find.before(bound?.start)),
    row: { sort: 'limit', columns: [[find.after(name?.end), 1]] },
  }),
  supply: ({ parts }, find) => ({ sentences: starts(parts, find) }),
  source: ({ when }, { before }) => ({ row: { sort: 'source', columns: [[before(when?.start), 1]] } }),
  link: ({ when }, { before }) => ({ row: { sort: 'link', columns: [[before(when?.start), 1]] } }),
  hazard: ({ noise, harm, text, protect }, { at, before }) => ({
    sentences: [at(harm?.start), ...[noise, text, protect].map((part) => before(part?.start))],
  }),
  rule: ({ title, each, require, because, sources }, { before, after }) => {
    const brace = after(each?.kind?.end ?? title?.end);
    const rest = [require, ...because, ...sources].map((part) => before(part?.start));
    return { sentences: [brace === undefined ? undefined : brace + 1, ...rest] };
  },
  procedure: ({ name, parameters, body }, find) => ({
    tight: [find.after(name?.end), ...parameters.map((parameter) => find.after(parameter.name.end))],
    tall: find.at(body?.start),
  }),
  card: ({ title, fields, body }, find) => ({
    sentences: [...starts(fields, find), ...starts(body, find)],
    tall: find.after(title?.end),
  }),
  'number-field': field,
  purpose: field,
  language: field,
  revision: field,
  applies: field,
  crew: field,
  tools: field,
  materials: field,
  parts: field,
  references: field,
  assume: fieldWithReason,
  leaves: fieldWithReason,
  stage: ({ body }, { at }) => ({ tall: at(body?.start) }),
  block: ({ statements }, find) => ({ sentences: starts(statements, find) }),
  step: ({ label, parts, actions, braces, end }, find) => {
    const roles = parts.findIndex(({ type }) => type !== 'by');
    const lastRole = parts.at(roles < 0 ? -1 : roles - 1);
    const next = roles !== 0 && lastRole && lastRole.end < end ? find.after(lastRole.end) : undefined;
    const done = parts.length > 1 ? find.at(braces?.start ?? actions[0]?.start) : undefined;
    return {
      sentences: braces ? starts(actions, find) : [],
      soft: [...starts(parts, find), ...(braces ? [] : starts(actions, find))],
      tight: [find.after(label?.end)],
      row: {
        sort: 'step',
        columns: [
          [next, 2],
          [done, 2],
        ],
      },
    };
  },
  together: ({ start, lanes }, find) => ({ sentences: starts(lanes, find), tall: find.after(start + 1) }),
  choose: ({ start, ways }, find) => ({
    sentences: ways.map((way, index) => (index === 0 ? find.at(way.start) : find.before(way.start))),
    tall: find.after(start + 1),
  }),
  do: ({ name, end }, { after }) => ({ tight: name && name.end < end ? [after(name.end)] : [] }),
  accept: ({ because, by }, { before }) => ({ soft: [before(because?.start), before(by?.start)] }),
  or: terms,
  and: terms,
  repeat: withElse,
  keep: withElse,
  check: withMend,
  read: withMend,
  bring: withMend,
  wait: withMend,
  watch: withElse,
  run: (node, find) => ({ ...withElse(node, find), sentences: starts(node.watches, find) }),
};

/** `asWritten` are stretches that are set as one piece each. */
export function marksOf(
  declarations: readonly Declaration[],
  asWritten: readonly Span[],
  pieces: readonly Piece[],
): Marks {
  const marks: Marks = {
    sentences: new Set(),
    soft: new Set(),
    tight: new Set(),
    tall: new Set(),
    hanging: new Set(),
    rows: new Map(),
  };
  const find = finderOf(pieces);
  addAll(marks.sentences, starts(asWritten, find));
  for (const declaration of declarations) {
    if (asWritten.some(({ start, end }) => start <= declaration.start && declaration.end <= end)) continue;
    addAll(marks.sentences, [find.at(declaration.start)]);
    walk(declaration, (node) => {
      const marker = markers[node.type] as ((node: Node, find: Finder) => Marking) | undefined;
      if (marker !== undefined) add(marks, marker(node, find), find.at(node.start));
    });
  }
  return marks;
}

function add(
  marks: Marks,
  { sentences = [], soft = [], tight = [], tall, hanging, row }: Marking,
  first: Wanted,
): void {
  addAll(marks.sentences, sentences);
  addAll(marks.soft, soft);
  addAll(marks.tight, tight);
  addAll(marks.tall, [tall]);
  addAll(marks.hanging, [hanging]);
  if (row === undefined || first === undefined) return;
  marks.rows.set(first, { sort: row.sort, columns: row.columns.map(([piece, gap]) => ({ piece, gap })) });
}

function addAll(to: Set<number>, pieces: readonly Wanted[]): void {
  for (const piece of pieces) if (piece !== undefined) to.add(piece);
}

function finderOf(pieces: readonly Piece[]): Finder {
  const written = pieces.flatMap((piece, index) => (piece.comment ? [] : [{ start: piece.start, index }]));
  /** The place in `written` of the first piece that begins at an offset or after it. */
  const placeOf = (offset: number): number => {
    let low = 0;
    let high = written.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((written[middle] as { start: number }).start < offset) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return {
    at: (start) => {
      const found = start === undefined ? undefined : written[placeOf(start)];
      return found?.start === start ? found?.index : undefined;
    },
    before: (start) => (start === undefined ? undefined : written[placeOf(start) - 1]?.index),
    after: (end) => (end === undefined ? undefined : written[placeOf(end)]?.index),
  };
}
