/** Where a way goes on, without the numbers of steps, which say nothing from one revision to the next. */
import type { Flow } from '../../shared/card.ts';
import type { Context } from '../render/context.ts';

export function flowWords(flow: Flow | undefined, { numbering, words: { change } }: Context): string {
  switch (flow?.type) {
    case undefined:
      return change.stop(undefined);
    case 'stop':
      return change.stop(flow.text);
    case 'finish':
      return change.finish;
    case 'go': {
      const { step, stage } = (flow.target && numbering.targetOf(flow.target)) ?? {};
      return change.goTo(stage ?? flow.target?.name ?? `${step ?? ''}`);
    }
  }
}
