/** An SVG file as it comes from anywhere, reduced to shapes and words: no script, no link, nothing that is loaded from elsewhere. */
import type { Element, Root } from 'hast';
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

/**
 * What a value may be. Browsers read most of these as styles, where `url()` has many spellings and other functions load
 * too: so nothing is looked for that is bad, and what has brackets is one of the functions that only calculate.
 */
const plain = /^[^\\()@:;]*$/;
const calculated = /^\s*(?:(?:rgba?|hsla?|matrix|translate|scale|rotate|skew[XY])\([-+.,%/\w\s]*\)[\s,]*)+$/;
/** A paint or a clip in the same file. */
const own = /^url\((["']?)#[\w.-]+\1\)(?:\s+(?:none|currentColor|#?\w+))?$/i;

const valued = [...place, ...look, ...stroke, ...words, ...frames, ...markers].map((name): [string, ...RegExp[]] => [
  name,
  plain,
  calculated,
  own,
]);

const schema: Schema = {
  tagNames: [...shapes, ...paints],
  attributes: { '*': [...valued, ['xmlns', 'http://www.w3.org/2000/svg']], use: [['href', /^#/]] },
  clobber: [],
  strip: ['script', 'style', 'foreignObject', 'iframe'],
};

export function cleanedSvg(data: Uint8Array): Uint8Array {
  const parsed = fromHtml(new TextDecoder().decode(data), { fragment: true, space: 'svg' });
  const clean = sanitize(parsed, schema) as Root;
  const svg = clean.children.find((child): child is Element => child.type === 'element' && child.tagName === 'svg');
  if (svg === undefined) return new Uint8Array();
  const complete = { ...svg, properties: { ...svg.properties, xmlns: 'http://www.w3.org/2000/svg' } };
  return new TextEncoder().encode(toHtml(complete, { space: 'svg', closeEmptyElements: true }));
}
