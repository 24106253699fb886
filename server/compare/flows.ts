/** Where a way goes on, without the numbers of steps, which say nothing from one revision to the next. */
import type { Flow } from '../../shared/card.ts';
import type { Context } from '../render/context.ts';

export function flowWords(flow: Flow | undefined, { numbering }: Context): string {
  switch (flow?.type) {
    case undefined:
      return 'stop';
    case 'stop':
      return `stop, “${flow.text}”`;
    case 'finish':
      return 'finish';
    case 'go': {
      const { step, stage } = (flow.target && numbering.targetOf(flow.target)) ?? {};
      return stage === undefined ? `go to “${flow.target?.name ?? step ?? ''}”` : `go to “${stage}”`;
    }
  }
}
