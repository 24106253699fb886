/** The runs and rests that an item's duties allow, one after another. Rests are not drawn to scale: their lengths are written on them. */
import type { Element } from 'hast';
import { s } from 'hastscript';
import type { Duty, Item, Seconds } from '../../../shared/card.ts';
import type { Context } from '../context.ts';
import { dutyText } from '../sentences/duties.ts';
import { durationText } from '../sentences/times.ts';
import { picture, textBlock, textWidth, tidy } from './svg.ts';

const barAt = 8;
const barHeight = 20;
const height = 34;
/** More runs than these are not drawn one by one. */
const mostRuns = 4;

interface Stretch {
  readonly runs: boolean;
  readonly text: string;
}

/** Undefined where the duties ask for no rest: one bar says no more than its sentence. */
export function dutyTimeline(item: Item, state: number, context: Context): Element | undefined {
  const duties = item.duties.filter((duty) => duty.state === state);
  const stretches = stretchesOf(duties, context);
  if (stretches.length < 2) return undefined;
  let x = 2;
  const drawn = stretches.flatMap(({ runs, text }) => {
    const width = tidy(textWidth([text])) + 14;
    const bar = s('rect', {
      className: [runs ? 'run' : 'rest'],
      x,
      y: barAt,
      width,
      height: barHeight,
    });
    const words = textBlock([text], x + width / 2, barAt + barHeight / 2, runs);
    x += width;
    return [bar, words];
  });
  const { words } = context;
  const description = words.picture.duty(item.label, duties.map((duty) => dutyText(duty, words)).join('. '));
  return picture('timeline', x + 2, height, description, drawn);
}

function stretchesOf(duties: readonly Duty[], { words }: Context): readonly Stretch[] {
  const longest = duties.find((duty) => duty.type === 'longest');
  const counted = duties.find((duty) => duty.type === 'times-then-rest');
  const run: Stretch = { runs: true, text: words.picture.run(longest && durationText(longest.limit, words)) };
  const rest = (seconds: Seconds): Stretch => ({ runs: false, text: words.picture.rest(durationText(seconds, words)) });
  const between = longest?.rest ? [rest(longest.rest)] : [];
  if (counted === undefined) return between.length === 0 ? [] : [run, ...between, run];
  if (counted.times > mostRuns) return [{ runs: true, text: words.picture.runs(counted.times) }, rest(counted.rest)];
  const runs = Array.from({ length: counted.times }, (_, index) => (index === 0 ? [run] : [...between, run])).flat();
  return [...runs, rest(counted.rest)];
}
