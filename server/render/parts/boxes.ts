/** What is filled in by hand: boxes to tick, blanks, yes and no, signatures. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Checked } from '../checklists.ts';
import type { Context } from '../context.ts';
import { textNode } from './text.ts';

/** More boxes than these in a row are counted in a blank instead. */
const mostBoxes = 12;

export function box(): Element {
  return h('span.box');
}

/** A box for each; nothing where there are none. */
export function checklist(lines: readonly Checked[]): ElementContent[] {
  if (lines.length === 0) return [];
  const items = lines.map(({ text, reason }) =>
    h('li.line', { dir: 'auto' }, [box(), ` ${text}`, ...(reason ? [textNode(' '), h('span.reason', reason)] : [])]),
  );
  return [h('ul.checklist', items)];
}

/** The box of a step that is done once; of one that is done several times the boxes stand under it. */
export function tickBox({ rounds }: Context): Element {
  return h('div.tick', rounds === 1 ? [box()] : []);
}

/** One box for each time that a step is done; where they would be too many, a blank to count in. */
export function boxesForEachTime({ rounds, words }: Context): ElementContent[] {
  if (rounds === 1) return [];
  if (rounds > mostBoxes) return [h('p.times', [`${words.block.timesDone(rounds)}: `, blankLine('short')])];
  const boxes = eachTime(rounds, (time) => h('span.numbered-box', [`${time} `, box()]));
  return [h('p.times', [`${words.block.done}: `, ...boxes])];
}

/** A place for a value, once for each time that it is to be written down. */
export function blanks(label: string, unit: string | undefined, { rounds }: Context): Element {
  const one = (prefix: string) => h('span.blank', [prefix, valueBlank(unit)]);
  if (rounds === 1 || rounds > mostBoxes) return h('p.blanks', one(`${label}: `));
  return h('p.blanks', [`${label}: `, ...eachTime(rounds, (time) => one(`${time}. `))]);
}

/** Once for each time that the step is done, where those are few. */
export function forEachTime<T>({ rounds }: Context, make: (prefix: string) => T): T[] {
  if (rounds === 1 || rounds > mostBoxes) return [make('')];
  return Array.from({ length: rounds }, (_, index) => make(`${index + 1}. `));
}

export function valueBlank(unit: string | undefined): Element {
  return h('span.blank', [blankLine('value'), unit ? ` ${unit}` : '']);
}

export function yesOrNo({ words }: Context): Element {
  return h('span.answers', [answer(words.step.yes), answer(words.step.no)]);
}

export function answer(word: string): Element {
  return h('span.answer', [box(), ` ${word}`]);
}

export function signatureBlanks({ words }: Context): Element {
  const blank = (label: string, size: 'value' | 'wide') => h('span.blank', [`${label}: `, blankLine(size)]);
  return h('p.blanks.signature', [
    blank(words.front.name, 'wide'),
    blank(words.step.sign, 'wide'),
    blank(words.step.timeOfDay, 'value'),
  ]);
}

export function blankLine(size: 'short' | 'value' | 'wide'): Element {
  return h(`span.line-${size}`);
}

function eachTime(times: number, make: (time: number) => ElementContent): ElementContent[] {
  return Array.from({ length: times }, (_, index) => make(index + 1));
}
