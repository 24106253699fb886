/** The runs and rests of an item so far, one after another. */
import { toHtml } from 'hast-util-to-html';
import { s } from 'hastscript';
import type { Item } from '../../../shared/card.ts';
import { durationWords } from '../../../shared/quantity.ts';
import { seconds } from '../../flow/time.ts';
import { picture, textBlock, textWidth, tidy } from '../../render/pictures/svg.ts';
import type { Stretch } from './run-times.ts';

const top = 4;
const barHeight = 20;

export function runsSvg(item: Item, stretches: readonly Stretch[]): string {
  let x = 2;
  const drawn = stretches.flatMap((stretch) => {
    const text = stretchWords(stretch);
    const width = textWidth([text]) + 14;
    const size = { x: tidy(x), y: top, width: tidy(width), height: barHeight };
    const bar = s('rect', { className: [stretch.runs ? 'run' : 'rest'], ...size });
    const words = textBlock([text], x + width / 2, top + barHeight / 2, stretch.runs);
    x += width;
    return [bar, words];
  });
  const description = `${item.label}: ${stretches.map(stretchWords).join(', ')}`;
  return toHtml(picture('timeline', x + 2, barHeight + 2 * top, description, drawn));
}

function stretchWords({ runs, time }: Stretch): string {
  const least = durationWords(seconds(time.least));
  if (time.most === Number.POSITIVE_INFINITY) return `${runs ? 'ran' : 'rested'} at least ${least}`;
  const most = durationWords(seconds(time.most));
  return `${runs ? 'ran' : 'rested'} ${least === most ? least : `${least} to ${most}`}`;
}
