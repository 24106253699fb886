/** The blocks inside a statement or stage. */
import type { Stage, Statement } from './card.ts';

export type Part = Stage | Statement;

/** In the order in which they are printed. */
export function blocksOf(part: Part): readonly (readonly Part[])[] {
  switch (part.type) {
    case 'stage':
    case 'do':
    case 'repeat':
    case 'mend':
      return [part.body];
    case 'if':
      return part.otherwise ? [part.body, part.otherwise] : [part.body];
    case 'together':
      return part.lanes.map((lane) => lane.body);
    case 'for-each':
      return part.rounds;
    case 'choose':
      return part.ways.map((way) => way.body);
    case 'step':
    case 'admonition':
    case 'keep':
    case 'sign':
    case 'go':
    case 'stop':
    case 'finish':
    case 'accept':
    case 'figure':
      return [];
  }
}
