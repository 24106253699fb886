import { all } from '../../grammar/navigate.ts';
import { largestFigure } from '../../shared/file-sizes.ts';
import { resolveUse } from '../binding/files.ts';
import type { FindingSort } from './finding.ts';
import { figureMime } from './support/figures.ts';

const megabytes = largestFigure / 1024 / 1024;
const advice =
  'Write its path from the folder of this file; outside of the workspace, name the folder in the setting “useFolders”.';

export const figureUnusable: FindingSort = {
  code: 'figure.unusable',
  level: 'error',
  title: 'A figure that the card cannot hold',
  help: {
    what: 'The file of a figure is not there, or is no PNG, JPEG or SVG picture.',
    why: 'The card is one file that carries its pictures; a reader on the job cannot go and find this one.',
    whatToDo: 'Give the path of the picture from the folder of this file, and save it as PNG, JPEG or SVG.',
  },
  sources: [],
  examples: [],
  *inFile({ file, parsed, bytesOf }) {
    if (!bytesOf) return;
    for (const { path } of all(parsed.file, 'figure')) {
      if (!path) continue;
      const bytes = bytesOf(resolveUse(file, path.value));
      const place = { file, start: path.start, end: path.end };
      if (!bytes) {
        yield {
          place,
          message: `There is no file “${path.value}” here, or it is larger than ${megabytes} MB. ${advice}`,
        };
      } else if (!figureMime(path.value, bytes)) {
        yield { place, message: `“${path.value}” is no PNG, JPEG or SVG picture. Save the figure as one of these.` };
      }
    }
  },
};
