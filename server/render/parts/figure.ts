/** Pictures that the writer put in, carried inside the file. */
import type { Element } from 'hast';
import { h } from 'hastscript';
import type { Figure } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { base64 } from '../../../shared/packed.ts';
import { type Context, positionOf } from '../context.ts';
import type { FigureFile } from '../input.ts';
import { cleanedSvg } from '../pictures/clean.ts';

export function renderFigure(figure: Figure, context: Context): Element {
  const file = context.input.figures.get(figure.path);
  const picture = file ? [h('img', { src: dataUrl(file), alt: figure.caption })] : [];
  return h('figure.figure', { ...positionOf(figure.place, context) }, [
    ...picture,
    h('figcaption', { dir: 'auto' }, figure.caption),
  ]);
}

const cleaned = new WeakMap<Uint8Array, Uint8Array>();

function cleanedOnce(data: Uint8Array): Uint8Array {
  return getOrInsert(cleaned, data, () => cleanedSvg(data));
}

function dataUrl(file: FigureFile): string {
  const data = file.mime === 'image/svg+xml' ? cleanedOnce(file.data) : file.data;
  return `data:${file.mime};base64,${base64(data)}`;
}
