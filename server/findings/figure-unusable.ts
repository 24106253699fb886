import { all } from '../../grammar/navigate.ts';
import { largestFigure } from '../../shared/file-sizes.ts';
import { resolveUse } from '../binding/files.ts';
import type { FindingSort } from './finding.ts';
import { figureOf } from './support/figures.ts';

const megabytes = largestFigure / 1024 / 1024;
const advice =
  'Write its path from the folder of this file; outside of the workspace, name the folder in the setting “useFolders”.';

export const figureUnusable: FindingSort = {
  code: 'figure.unusable',
  level: 'error',
  notUnderstood: true,
  title: 'A figure that the card cannot hold',
  help: {
    what: 'The file of a figure is not there, or is no PNG, JPEG or SVG picture, or is a drawing with too many shapes.',
    why: 'The card is one file that carries its pictures; a reader on the job cannot go and find this one.',
    whatToDo: 'Give the path of the picture from the folder of this file, and save it as PNG, JPEG or SVG.',
  },
  sources: [],
  examples: [],
  *inFile({ file, parsed, bytesOf }) {
    if (!bytesOf) return;
    for (const { path } of all(parsed.file, 'figure')) {
      if (!path) continue;
      const message = faultOf(path.value, bytesOf(resolveUse(file, path.value)));
      if (message) yield { place: { file, start: path.start, end: path.end }, message };
    }
  },
};

function faultOf(path: string, bytes: Uint8Array | undefined): string | undefined {
  if (!bytes) return `There is no file “${path}” here, or it is larger than ${megabytes} MB. ${advice}`;
  const { mime, isTooLarge } = figureOf(path, bytes);
  if (!mime) return `“${path}” is no PNG, JPEG or SVG picture. Save the figure as one of these.`;
  return isTooLarge ? `The drawing “${path}” has too many shapes. Save it as PNG, or make it simpler.` : undefined;
}
