import type { ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Step } from '../../../shared/card.ts';
import type { Context } from '../context.ts';
import { whichText } from '../sentences/machines.ts';

/** A text among elements; it is escaped when it is written. */
export function textNode(value: string): ElementContent {
  return { type: 'text', value };
}

/** The machines that something is for. It stands before what is done: whoever has done it reads no further. */
export function onlyFor({ only }: Pick<Step, 'only'>, { input, words }: Context): ElementContent[] {
  if (!only || input.configuration !== undefined) return [];
  return [h('p.only', { dir: 'auto' }, words.step.only(whichText(only, words)))];
}
