/** Boxes and arrows, laid out by dagre. */
import { Graph, type GraphLabel, layout } from '@dagrejs/dagre';
import type { Element } from 'hast';
import { s } from 'hastscript';
import { lineHeight, path, picture, sheetWidth, textBlock, textWidth, tidy, wrapped } from './svg.ts';

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
const padding = 4;

interface Laid {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

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
  const drawn = [
    ...arrows.flatMap((arrow, index) =>
      drawArrow(arrow, graph.edge({ v: String(arrow.from), w: String(arrow.to), name: String(index) })),
    ),
    ...boxes.flatMap((box, index) => drawBox(box, graph.node(String(index)) as Laid)),
  ];
  return picture(name, width, height, description, drawn);
}

function laidOut({ boxes, direction }: Layout, arrows: readonly Arrow[]): Graph {
  const graph: Graph = new Graph({ multigraph: true });
  const margins: GraphLabel = {
    rankdir: direction,
    nodesep: 14,
    ranksep: direction === 'LR' ? 26 : 11,
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

function drawBox({ lines, shape }: Box, { x, y, width, height }: Laid): Element[] {
  const left = tidy(x - width / 2);
  const top = tidy(y - height / 2);
  const frame =
    shape === 'question'
      ? s('path', { className: ['frame'], d: `${path(hexagon(x, y, width, height))}Z` })
      : s('rect', {
          className: shape === 'box' ? ['frame'] : ['frame', shape],
          x: left,
          y: top,
          width: tidy(width),
          height: tidy(height),
          rx: shape === 'end' ? tidy(height / 2) : 2,
        });
  return [frame, textBlock(lines, x, y, 'middle', isBold(shape))];
}

function isBold(shape: Box['shape']): boolean {
  return shape === 'source' || shape === 'end';
}

function hexagon(x: number, y: number, width: number, height: number): { x: number; y: number }[] {
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

type LaidEdge = { readonly points?: readonly { x: number; y: number }[]; readonly x?: number; readonly y?: number };

function drawArrow({ label, both, dashed }: Arrow, edge: LaidEdge): Element[] {
  const points = edge.points ?? [];
  const line = s('path', { className: dashed ? ['arrow', 'is-dashed'] : ['arrow'], d: path(points) });
  const heads = [head(points.slice(-2)), ...(both ? [head([...points].reverse().slice(-2))] : [])];
  if (label === undefined || edge.x === undefined || edge.y === undefined) return [line, ...heads];
  return [line, ...heads, ...drawLabel(wrapped(label, labelWidth), edge.x, edge.y)];
}

/** The words of an arrow stand on white, so that the arrow does not cross them. */
function drawLabel(lines: readonly string[], x: number, y: number): Element[] {
  const width = textWidth(lines) + 4;
  const height = lines.length * lineHeight;
  const ground = s('rect', {
    className: ['ground'],
    x: tidy(x - width / 2),
    y: tidy(y - height / 2),
    width: tidy(width),
    height: tidy(height),
  });
  return [ground, textBlock(lines, x, y)];
}

/** A filled point in the direction of the last stretch. */
function head(stretch: readonly { x: number; y: number }[]): Element {
  const [from, to] = stretch;
  if (from === undefined || to === undefined) return s('path', { d: '' });
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const corner = (turn: number) => ({ x: to.x - 7 * Math.cos(angle + turn), y: to.y - 7 * Math.sin(angle + turn) });
  return s('path', { className: ['head'], d: `${path([to, corner(0.45), corner(-0.45)])}Z` });
}
