/** Boxes and arrows, laid out by dagre. */
import { Graph, type GraphLabel, layout } from '@dagrejs/dagre';
import type { Element } from 'hast';
import { s } from 'hastscript';
import {
  type Area,
  lineHeight,
  outline,
  type Point,
  path,
  picture,
  sheetWidth,
  textBlock,
  textWidth,
  tidy,
  wrapped,
} from './svg.ts';

export interface Box {
  readonly lines: readonly string[];
  readonly shape: 'box' | 'question' | 'end' | 'source';
}

export interface Arrow {
  readonly from: number;
  readonly to: number;
  readonly label?: string;
  /** Both ways. */
  readonly both?: boolean;
  /** Not the usual way: drawn with dashes. */
  readonly dashed?: boolean;
}

/** Characters in a line beside an arrow. */
const labelWidth = 20;
const padding = 3;

interface Layout {
  readonly boxes: readonly Box[];
  readonly direction: 'TB' | 'LR';
}

/** Drawn in the first of these ways that is no wider than a sheet; where none is, in the last. */
export function graphPicture(
  name: string,
  description: string,
  arrows: readonly Arrow[],
  layouts: readonly Layout[],
): Element {
  const tried = layouts.map((one) => ({ ...one, graph: laidOut(one, arrows) }));
  const { boxes, graph } =
    tried.find((one) => (one.graph.graph().width ?? 0) <= sheetWidth) ?? (tried.at(-1) as (typeof tried)[number]);
  const { width = 0, height = 0 } = graph.graph();
  const edges = arrows.map(
    (arrow, index): LaidArrow => ({
      ...arrow,
      ...graph.edge({ v: String(arrow.from), w: String(arrow.to), name: String(index) }),
    }),
  );
  const laid = boxes.map((box, index): LaidBox => ({ ...box, ...(graph.node(String(index)) as Area) }));
  return picture(name, width, height, description, [...drawArrows(edges), ...drawBoxes(laid)]);
}

function laidOut({ boxes, direction }: Layout, arrows: readonly Arrow[]): Graph {
  const graph: Graph = new Graph({ multigraph: true });
  const margins: GraphLabel = {
    rankdir: direction,
    nodesep: 14,
    ranksep: direction === 'LR' ? 26 : 8,
    edgesep: 12,
    marginx: 4,
    marginy: 4,
  };
  graph.setGraph(margins);
  graph.setDefaultEdgeLabel(() => ({}));
  boxes.forEach((box, index) => {
    graph.setNode(String(index), sizeOf(box));
  });
  arrows.forEach((arrow, index) => {
    graph.setEdge(String(arrow.from), String(arrow.to), labelSize(arrow), String(index));
  });
  layout(graph);
  return graph;
}

/** Bold letters are so much wider. */
const boldWidth = 1.12;

function sizeOf({ lines, shape }: Box): { width: number; height: number } {
  const extra = shape === 'question' ? 14 : 0;
  const width = textWidth(lines) * (isBold(shape) ? boldWidth : 1);
  return { width: width + padding * 2 + extra, height: lines.length * lineHeight + padding * 2 };
}

function labelSize({ label }: Arrow): { width: number; height: number; labelpos: 'c' } | Record<string, never> {
  if (label === undefined) return {};
  const lines = wrapped(label, labelWidth);
  return { width: textWidth(lines) + 4, height: lines.length * lineHeight, labelpos: 'c' };
}

type LaidBox = Box & Area;

/** What looks alike is one path: a smaller file. */
function drawn(className: readonly string[], outlines: readonly string[]): Element[] {
  return outlines.length === 0 ? [] : [s('path', { className: [...className], d: outlines.join('') })];
}

function drawBoxes(boxes: readonly LaidBox[]): Element[] {
  const of = (...shapes: readonly Box['shape'][]) => boxes.filter(({ shape }) => shapes.includes(shape));
  return [
    ...drawn(['frame'], of('box', 'question').map(frame)),
    ...drawn(['frame', 'source'], of('source').map(frame)),
    ...of('end').map(pill),
    ...boxes.map(({ lines, shape, x, y }) => textBlock(lines, x, y, isBold(shape))),
  ];
}

function frame(box: LaidBox): string {
  return box.shape === 'question' ? `${path(hexagon(box))}z` : outline(box);
}

function pill({ x, y, width, height }: LaidBox): Element {
  return s('rect', {
    className: ['frame', 'end'],
    x: tidy(x - width / 2),
    y: tidy(y - height / 2),
    width: tidy(width),
    height: tidy(height),
    rx: tidy(height / 2),
  });
}

function isBold(shape: Box['shape']): boolean {
  return shape === 'source' || shape === 'end';
}

function hexagon({ x, y, width, height }: Area): readonly Point[] {
  const [left, right, top, bottom] = [x - width / 2, x + width / 2, y - height / 2, y + height / 2];
  return [
    { x: left, y },
    { x: left + 9, y: top },
    { x: right - 9, y: top },
    { x: right, y },
    { x: right - 9, y: bottom },
    { x: left + 9, y: bottom },
  ];
}

type LaidArrow = Arrow & {
  readonly points?: readonly Point[];
  readonly x?: number;
  readonly y?: number;
};

/** The words of an arrow stand on white, so that no arrow crosses them. */
function drawArrows(arrows: readonly LaidArrow[]): Element[] {
  const line = ({ points = [] }: LaidArrow) => path(points);
  const labels = arrows.flatMap(({ label, x, y }) =>
    label === undefined || x === undefined || y === undefined ? [] : [{ lines: wrapped(label, labelWidth), x, y }],
  );
  return [
    ...drawn(['arrow'], arrows.filter(({ dashed }) => !dashed).map(line)),
    ...drawn(['arrow', 'is-dashed'], arrows.filter(({ dashed }) => dashed).map(line)),
    ...drawn(['head'], arrows.flatMap(heads)),
    ...drawn(
      ['ground'],
      labels.map(({ lines, x, y }) =>
        outline({ x, y, width: textWidth(lines) + 4, height: lines.length * lineHeight }),
      ),
    ),
    ...labels.map(({ lines, x, y }) => textBlock(lines, x, y)),
  ];
}

function heads({ points = [], both }: LaidArrow): readonly string[] {
  return [head(points.slice(-2)), ...(both ? [head([...points].reverse().slice(-2))] : [])];
}

/** A filled point in the direction of the last stretch. */
function head(stretch: readonly Point[]): string {
  const [from, to] = stretch;
  if (from === undefined || to === undefined) return '';
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const corner = (turn: number) => ({ x: to.x - 7 * Math.cos(angle + turn), y: to.y - 7 * Math.sin(angle + turn) });
  return `${path([to, corner(0.45), corner(-0.45)], 10)}z`;
}
