import { all } from '../../grammar/navigate.ts';
import type * as syntax from '../../grammar/syntax.ts';
import type { Gauge, Item } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';
import { recognise, type Said } from '../prose/recognise.ts';
import type { FileFacts, FindingSort, Found } from './finding.ts';
import { replace } from './support/edits.ts';
import { withElse } from './support/else-mends.ts';
import { type Sentence, sentencesOf } from './support/sentences.ts';
import { STE } from './support/sources.ts';
import { asSteps, headOf } from './support/text-as-steps.ts';

export const proseUnsaidAction: FindingSort = {
  code: 'prose.unsaid-action',
  level: 'warning',
  reads: ['words'],
  title: 'A sentence says what the proof does not see',
  help: {
    what: 'A sentence in the text of a step names an item with a verb of its kind, or a gauge with a bound, or a time to wait. To the proof it is a text like any other: nothing is set, read or waited for.',
    why: 'Rules, limits, duties and what must be put back are proved of actions alone. A card of prose comes out clean whatever it says.',
    whatToDo:
      'Say it as an action: the printed card says the same sentence. If it does nothing to the machine, accept it in the step.',
  },
  sources: [STE('5.2: one instruction in a sentence')],
  examples: [
    {
      given: `item isolator : isolator "the pump isolator"`,
      bad: `card change "Change" {
  number "1" revision "A" crew fitter "Fitter"
  step "Close the pump isolator."
  //    ^^^^^^^^^^^^^^^^^^^^^^^^ prose.unsaid-action
}`,
      good: `card change "Change" {
  number "1" revision "A" crew fitter "Fitter"
  step set isolator closed
}`,
    },
    {
      given: `gauge oil "oil pressure" in bar { limit most at most 50 bar }`,
      bad: `card look "Look" {
  number "1" revision "A" crew fitter "Fitter"
  step "Read the oil pressure. It must be at most 50 bar."
  //    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ prose.unsaid-action
}`,
      good: `card look "Look" {
  number "1" revision "A" crew fitter "Fitter"
  step read oil in most
}`,
    },
  ],
  inTexts: {
    texts: (facts) => {
      const { items, gauges } = facts.bound.equipment;
      if (items.length + gauges.length === 0) return new Map();
      return getOrInsert(known, facts.parsed.file, () => new Map(saidInSteps(facts)));
    },
    inText: ({ text, by, within, language }: SaidInStep, facts) =>
      by.type === 'step' ? inText(text, by, within, language, facts) : inQuestion(by, text, language, facts),
  },
};

interface SaidInStep {
  readonly text: syntax.Text;
  /** The step, or a question in it. */
  readonly by: syntax.Step | syntax.Check;
  readonly within: syntax.Declaration;
  readonly language: string;
}

const known = new WeakMap<syntax.File, ReadonlyMap<syntax.Text, SaidInStep>>();

function saidInSteps({ parsed, bound }: FileFacts): (readonly [syntax.Text, SaidInStep])[] {
  const normally = bound.cards[0]?.language?.text ?? 'en';
  return parsed.file.declarations.flatMap((within) => {
    if (within.type !== 'card' && within.type !== 'procedure') return [];
    const language = bound.cards.find(({ name }) => name === within.name?.text)?.language?.text ?? normally;
    return all(within, 'step')
      .flatMap(textsOf)
      .map((said) => [said.text, { ...said, within, language }] as const);
  });
}

function textsOf(step: syntax.Step): Pick<SaidInStep, 'text' | 'by'>[] {
  const texts = step.parts.flatMap((text) => (text.type === 'text' ? { text, by: step } : []));
  const questions = step.actions.flatMap((by) => (by.type === 'check' && by.question ? { text: by.question, by } : []));
  return [...texts, ...questions];
}

function* inText(
  text: syntax.Text,
  step: syntax.Step,
  within: syntax.Declaration,
  language: string,
  facts: FileFacts,
): Iterable<Found> {
  const sentences = sentencesOf(text, facts.parsed.text);
  const said = recognise({ sentences: sentences.map((one) => one.text), language }, facts.bound.equipment);
  for (const [index, sentence] of sentences.entries()) {
    const [first, ...others] = said.filter((one) => one.first === index);
    if (!first || [first, ...others].every((one) => isDone(one, step) || isDoneAgain(one, step, within))) continue;
    const end = sentences[others.at(-1)?.last ?? first.last]?.end ?? sentence.end;
    const place = { file: facts.file, start: sentence.start, end };
    const look = said.findLast((one) => one.last === index - 1);
    const source = facts.parsed.text;
    yield {
      place,
      message: `The proof does not see this${unseen(first, within, facts)} ${advice([first, ...others])}`,
      fixes: [
        ...mends([first, ...others], place, step, text, source),
        ...(look ? asElse(look, sentences, index, [first, ...others], { step, text, source, file: facts.file }) : []),
      ],
    };
  }
}

function mends(said: readonly Said[], place: Place, step: syntax.Step, text: syntax.Text, source: string): Fix[] {
  const [first] = said as readonly [Said];
  if (first.conditional !== false)
    return typeof first.conditional === 'string' ? inIf(said, first.conditional, place, step, source) : [];
  const ways =
    said.length === 1 ? first.actions.map((action) => [action]) : [said.flatMap(({ actions }) => actions.slice(0, 1))];
  const rest = said.at(-1)?.rest;
  const keeps = said.some(({ more }) => more);
  return ways.map((actions) => ({
    title: `Say it as: ${actions.join(' ')}`,
    edits: asSteps({ actions, place, rest, keeps }, step, text, source),
    reveals: true,
  }));
}

interface Round {
  readonly step: syntax.Step;
  readonly text: syntax.Text;
  readonly source: string;
  readonly file: string;
}

/** What is done where the look of the sentence before fails, behind its `else`. */
function asElse(
  look: Said,
  sentences: readonly Sentence[],
  index: number,
  done: readonly Said[],
  { step, text, source, file }: Round,
): Fix[] {
  const [first, last] = [sentences[look.first], sentences[index]];
  const action = last && withElse(look, last.text, done, headOf(step));
  if (!first || !last || action === undefined) return [];
  const saying = { actions: [action], place: { file, start: first.start, end: last.end }, keeps: false };
  const title = `Say both as: ${action.slice(0, action.indexOf('{'))}{ … }`;
  return [{ title, edits: asSteps(saying, step, text, source), reveals: true }];
}

/** `If the lamp is on, stop the pump.` as a branch, where the step says nothing else. */
function inIf(said: readonly Said[], condition: string, place: Place, step: syntax.Step, source: string): Fix[] {
  const bare =
    step.parts.every(({ type }) => type === 'by' || type === 'text') && step.actions.length === 0 && !step.label;
  const whole = step.parts.some(
    (part) => part.type === 'text' && part.start + 1 === place.start && part.end - 1 === place.end,
  );
  if (!bare || !whole || said.length > 1 || said.some(({ rest, more }) => rest !== undefined || more)) return [];
  const line = source.slice(source.lastIndexOf('\n', step.start) + 1, step.start);
  const [lineEnd, indent] = line.trim() === '' ? [`${/\r?\n/.exec(source)?.[0] ?? '\n'}${line}`, '  '] : [' ', ''];
  return (said[0]?.actions ?? []).map((action) => ({
    title: `Say it as: if ${condition} { … ${action} }`,
    edits: [
      replace(
        { ...place, start: step.start, end: step.end },
        `if ${condition} {${lineEnd}${indent}${headOf(step)} ${action}${lineEnd}}`,
      ),
    ],
    reveals: true,
  }));
}

/** A question that the proof could answer: it takes it as one that may go either way. */
function* inQuestion(
  check: syntax.Check,
  question: syntax.Text,
  language: string,
  { file, parsed, bound }: FileFacts,
): Iterable<Found> {
  const sentences = sentencesOf(question, parsed.text);
  const [said] = recognise({ sentences: sentences.map((one) => one.text), language }, bound.equipment);
  if (!said || sentences.length > 1 || (said.sort !== 'look' && said.sort !== 'read')) return;
  const end = check.otherwise?.start ?? check.end;
  const place = { file, start: question.start, end: question.end };
  yield {
    place,
    message: `The proof does not see this: to it the question may be answered either way, whatever is so. ${advice([said])}`,
    fixes: said.actions.map((action) => ({
      title: `Say it as: ${action}`,
      edits: [replace({ file, start: check.start, end: Math.min(question.end, end) }, action)],
      reveals: true,
    })),
  };
}

/** Where a step says the same as an action too. */
function isDone({ about, sort }: Said, step: syntax.Step): boolean {
  if (sort === 'wait') return step.actions.some(({ type }) => type === 'wait' || type === 'run');
  const named = new Set(step.actions.flatMap(namesIn));
  return about.length > 0 && about.some(({ name }) => named.has(name));
}

/** Behind the `else` of a look: what was set last is said again, as the look has failed. */
function isDoneAgain({ about, sort, state }: Said, { start, end }: syntax.Step, within: syntax.Declaration): boolean {
  const looks = [...all(within, 'check'), ...all(within, 'read')];
  const mend = looks.flatMap((look) => look.mend ?? []).find((one) => one.start <= start && end <= one.end);
  if (!mend || sort !== 'set') return false;
  const before = all(within, 'item-state').filter((set) => set.end <= mend.start);
  return about.every((thing) => {
    const last = before.findLast(({ item }) => item?.text === thing.name);
    return last !== undefined && isItem(thing) && last.state?.text === thing.kind.states[state ?? -1]?.name;
  });
}

function namesIn(action: syntax.Step['actions'][number]): string[] {
  return all(action, 'name').map(({ text }) => text);
}

function advice(said: readonly Said[]): string {
  const [first, ...others] = said as readonly [Said, ...Said[]];
  if (first.conditional !== false) {
    return `Say the condition with “if”, and what is done then as an action: ${first.actions[0]}.`;
  }
  if (others.length > 0) return `Say it as actions: ${said.map(({ actions }) => actions[0]).join('; ')}.`;
  return `Say it as an action: ${first.actions.join(', or ')}.`;
}

/** What the proof believes instead. */
function unseen({ about, sort, state }: Said, within: syntax.Declaration, facts: FileFacts): string {
  const [thing] = about;
  if (sort === 'wait' || thing === undefined) return ': to it no time passes here.';
  if (!isItem(thing)) return `: to it nobody has read ${theOf(thing.label)} here.`;
  const stated = state === undefined ? undefined : thing.kind.states[state]?.name.replaceAll('-', ' ');
  if (about.length > 1) return ': to it none of these is moved or looked at here.';
  if (sort === 'run') return `: to it ${thing.label} does not run here.`;
  if (sort === 'look' || stated === undefined) return `: to it nobody looks at ${thing.label} here.`;
  const before = thing.normally === undefined ? undefined : thing.kind.states[thing.normally]?.name;
  const untouched = !all(within, 'set').flatMap(namesIn).includes(thing.name);
  const still =
    untouched &&
    before &&
    thing.normally !== state &&
    !facts.bound.cards.some(({ assumes }) => assumes.some(({ item }) => item === thing));
  return still
    ? `: to it ${thing.label} is still ${before.replaceAll('-', ' ')}.`
    : `: to it ${thing.label} is not ${stated} by this step.`;
}

function isItem(thing: Item | Gauge): thing is Item {
  return 'kind' in thing;
}

function theOf(label: string): string {
  return /^(?:the|an?)\s/i.test(label) ? label : `the ${label}`;
}
