/** An SVG file as it comes from anywhere, reduced to shapes and words: no script, no link, nothing that is loaded from elsewhere. */
import type { Element, ElementContent, Root, RootContent } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { type Schema, sanitize } from 'hast-util-sanitize';
import { toHtml } from 'hast-util-to-html';

const shapes = [
  'svg',
  'g',
  'path',
  'rect',
  'circle',
  'ellipse',
  'line',
  'polyline',
  'polygon',
  'text',
  'tspan',
  'title',
  'desc',
  'defs',
  'marker',
];
const paints = ['linearGradient', 'radialGradient', 'stop', 'clipPath', 'pattern', 'symbol', 'use'];

const place = [
  'x',
  'y',
  'x1',
  'y1',
  'x2',
  'y2',
  'dx',
  'dy',
  'cx',
  'cy',
  'r',
  'rx',
  'ry',
  'fx',
  'fy',
  'width',
  'height',
  'd',
  'points',
  'transform',
];
const look = [
  'fill',
  'fillRule',
  'fillOpacity',
  'clipRule',
  'clipPath',
  'opacity',
  'color',
  'display',
  'visibility',
  'paintOrder',
  'vectorEffect',
];
const stroke = [
  'stroke',
  'strokeWidth',
  'strokeOpacity',
  'strokeLineCap',
  'strokeLineJoin',
  'strokeMiterLimit',
  'strokeDashArray',
  'strokeDashOffset',
];
const words = [
  'fontFamily',
  'fontSize',
  'fontStyle',
  'fontWeight',
  'textAnchor',
  'dominantBaseline',
  'letterSpacing',
  'writingMode',
  'rotate',
];
const frames = [
  'viewBox',
  'preserveAspectRatio',
  'xmlns',
  'id',
  'offset',
  'stopColor',
  'stopOpacity',
  'gradientUnits',
  'gradientTransform',
];
const markers = [
  'markerEnd',
  'markerStart',
  'markerMid',
  'markerWidth',
  'markerHeight',
  'refX',
  'refY',
  'orient',
  'markerUnits',
  'patternUnits',
];

const schema: Schema = {
  tagNames: [...shapes, ...paints],
  attributes: { '*': [...place, ...look, ...stroke, ...words, ...frames, ...markers], use: [['href', /^#/]] },
  clobber: [],
  strip: ['script', 'style', 'foreignObject', 'iframe'],
};

export function cleanedSvg(data: Uint8Array): Uint8Array {
  const parsed = fromHtml(new TextDecoder().decode(data), { fragment: true, space: 'svg' });
  const clean = withoutLinks(sanitize(parsed, schema) as Root);
  const svg = clean.children.find((child): child is Element => child.type === 'element' && child.tagName === 'svg');
  if (svg === undefined) return new Uint8Array();
  const complete = { ...svg, properties: { ...svg.properties, xmlns: 'http://www.w3.org/2000/svg' } };
  return new TextEncoder().encode(toHtml(complete, { space: 'svg', closeEmptyElements: true }));
}

/** Paints and clips may name something in the same file (`url(#shade)`), and nothing else. */
function withoutLinks(root: Root): Root {
  return { ...root, children: root.children.map(withoutLink) };
}

function withoutLink<Node extends RootContent | ElementContent>(node: Node): Node {
  if (node.type !== 'element') return node;
  const kept = Object.entries(node.properties).filter(([, value]) => !/url\(\s*['"]?\s*[^#'"\s]/i.test(String(value)));
  return { ...node, properties: Object.fromEntries(kept), children: node.children.map(withoutLink) };
}
