/** The lessons of the walkthrough, done as their pages say: each is seen to be done at its end, and not before. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { type Deed, isDone, lessons } from '../../../client/extension/lessons.ts';
import manifest from '../../../package.json' with { type: 'json' };
import { openWorkspace } from '../../../server/api.ts';
import { countsOf } from '../../../server/features/counts.ts';
import type { Counts } from '../../../shared/protocol.ts';

const source = readFileSync('client/extension/example.ts', 'utf8');
const example = /`([^`]*)`/.exec(source)?.[1] ?? '';

/** What the page of a lesson gives to be written. */
function written(lesson: string): string {
  return /```\n([^`]*)```/.exec(readFileSync(`client/extension/media/walkthrough/${lesson}.md`, 'utf8'))?.[1] ?? '';
}

function count(text: string): Counts {
  const file = '/example.card';
  const api = openWorkspace({ readText: (name) => (name === file ? text : undefined) });
  const { findings } = api.check([file]);
  const snapshot = api.workspace.snapshot(file);
  if (!snapshot) throw new Error('There is no text.');
  return countsOf(snapshot, findings);
}

test('each lesson is done as its page says', () => {
  const mended = example
    .replace('    step set pump-cover removed', '    step set drain-valve open\n$&')
    .replace('    step set pump-switch on', '    step set drain-valve closed\n$&');
  const withStep = mended.replace('step "Clean the strainer."', `$&\n    ${written('step').trim()}`);
  const withItem = withStep.replace('\nrule', `${written('item')}\nrule`);
  const withRule = withItem.replace('\ncard', `${written('rule')}\ncard`);
  const withPadlock = withRule
    .replace('    step set pump-cover removed', '    step set padlock fitted\n$&')
    .replace('    step set pump-switch on', '    step set padlock away\n$&');
  const texts: readonly [before: string, after: string, deed?: Deed][] = [
    [example, mended],
    [mended, withStep],
    [withStep, withItem],
    [withItem, withPadlock],
    [withPadlock, withRule, 'walk'],
    [withRule, withPadlock, 'export'],
  ];
  for (const [index, { lesson }] of lessons.entries()) {
    const [before, after, deed] = texts[index] as (typeof texts)[number];
    const start = count(before);
    expect({ lesson, done: isDone(lesson, start, start) }).toEqual({ lesson, done: false });
    expect({ lesson, done: isDone(lesson, start, count(after), deed) }).toEqual({ lesson, done: true });
  }
  expect(isDone('rule', count(withItem), count(withRule))).toBe(false);
});

test('the walkthrough has the lessons as its steps, in their order', () => {
  const [walkthrough] = manifest.contributes.walkthroughs;
  expect(walkthrough?.steps.map(({ id, completionEvents }) => [id, ...completionEvents])).toEqual(
    lessons.map(({ lesson }) => [lesson, `onContext:cardwright.learnt.${lesson}`]),
  );
});
