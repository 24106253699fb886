/** Jobs for tests: a card's program, and a short way to write what happens on it. */

import type { Element } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { type Entry, type Happening, noted } from '../../client/work-copy/entries.ts';
import type { Walk } from '../../client/work-copy/state.ts';
import { walk } from '../../client/work-copy/walk.ts';
import { openWorkspace } from '../../server/api.ts';
import { contextOf } from '../../server/render/context.ts';
import { compileJob } from '../../server/render/job/compile.ts';
import type { Card } from '../../shared/card.ts';
import type { Job, Unit } from '../../shared/job.ts';
import { unpacked } from '../../shared/packed.ts';
import { elementsIn, textIn } from './html.ts';
import { inputOf } from './rinse.ts';

/** The job that an exported page carries. */
export function jobIn(html: string): Job {
  const data = elementsIn(fromHtml(html)).find(({ properties }) => properties.id === 'job');
  return unpacked(JSON.parse(textIn(data as Element))) as Job;
}

export const jobOf = (card: Card): Job => compileJob(contextOf(inputOf(card))).job;

/** Of the only card of a text. */
export function jobFrom(text: string): Job {
  const api = openWorkspace({ readText: (file) => (file === 'test.card' ? text : undefined) });
  const [card] = api.render('test.card', { workCopy: 'run()' });
  if (card === undefined || card.errors.length > 0) throw new Error(JSON.stringify(card?.errors));
  return jobIn(card.html);
}

/** A second later each. */
export const entriesOf = (...happenings: readonly Happening[]): readonly Entry[] => noteAll([], happenings);

/** More of them, a second later each; `device` is the tablet. */
export const noteAll = (
  entries: readonly Entry[],
  happenings: readonly Happening[],
  device = 'test',
): readonly Entry[] =>
  happenings.reduce((before, next) => noted(before, next, { at: (before.length + 1) * 1000, device }), entries);

export const unitNamed = (job: Job, name: string): number =>
  job.moves.findIndex((move) => move.type === 'unit' && move.name === name);

/** What is next, in words. */
export function nextOf(job: Job, at: Walk): readonly string[] {
  return at.next.map((index) => {
    const move = job.moves[index];
    if (move?.type === 'unit') return move.name;
    return move?.type === 'ask'
      ? `? ${move.text}`
      : `choose ${move?.type === 'choose' ? move.ways.map(({ text }) => text).join(' / ') : ''}`;
  });
}

/** Goes through a job by ticking whatever is next and answering each question as told; gives the names in the order done. */
export function wholeWay(
  job: Job,
  answers: (question: string) => boolean | number,
): { readonly done: readonly string[]; readonly end: Walk } {
  let entries: readonly Entry[] = [];
  const done: string[] = [];
  for (let count = 0; count < 500; count++) {
    const at = walk(job, entries);
    const [index] = at.next;
    if (index === undefined) return { done, end: at };
    const [name] = nextOf(job, at) as readonly [string];
    done.push(name);
    entries = noteAll(entries, [answered(job, index, name, answers)]);
  }
  throw new Error('The job does not end.');
}

function answered(job: Job, index: number, name: string, answers: (question: string) => boolean | number): Happening {
  const move = job.moves[index];
  if (move?.type === 'ask') return { type: 'answer', move: index, yes: answers(name) === true };
  if (move?.type === 'choose') return { type: 'choose', move: index, way: Number(answers(name)) };
  return { type: 'tick', move: index };
}

export const asUnit = (job: Job, index: number): Unit => job.moves[index] as Unit;
