/** Where to go on, in words and with the number of the step. */
import type { Flow } from '../../../shared/card.ts';
import type { Context } from '../context.ts';
import { capitalised, ended } from './labels.ts';

/** `Go to step 12, “Put everything back”.` An absent flow is a stop without a word of its own. `first` is what is done before. */
export function flowSentence(flow: Flow | undefined, context: Context, first?: string): string {
  const sentence = capitalised(flowText(flow, context), context.words.tag);
  return first === undefined ? sentence : `${first} ${sentence}`;
}

function flowText(flow: Flow | undefined, context: Context): string {
  const { step } = context.words;
  if (flow?.type === 'go') return ended(goText(flow, context));
  if (flow?.type === 'finish') return ended(step.finish);
  const safe = stopSteps(context);
  const text = flow && ended(flow.text);
  return [step.stop, safe, text && safe ? step.thenDo(text) : text].filter(Boolean).join(' ');
}

/** What makes the machine safe comes first. */
function stopSteps({ words: { step }, numbering, stopStages }: Context): string | undefined {
  if (stopStages.length === 0) return undefined;
  const range = numbering.rangeOf(stopStages);
  return range ? step.doStopSteps(step.steps(range.first, range.last)) : step.doIfYouStop;
}

function goText(flow: Extract<Flow, { type: 'go' }>, { words, numbering }: Context): string {
  const target = flow.target && numbering.targetOf(flow.target);
  if (target === undefined) return words.step.goToUnknown;
  return target.step === undefined ? words.step.goToEnd(target.stage) : words.step.goTo(target.step, target.stage);
}

/** What it is that has failed: after a run stands what ends it, and a wait without a time only ends when nobody expects it any more. */
export type FailureWord = 'ifNot' | 'ifNotReached' | 'ifItNeverIs';

/** `If not: go to step 12.` */
export function failureSentence(
  flow: Flow | undefined,
  context: Context,
  word: FailureWord = 'ifNot',
  first?: string,
): string {
  const text = first === undefined ? flowText(flow, context) : flowSentence(flow, context, first);
  return `${context.words.step[word]}: ${text}`;
}
