/** The calibrated tools that were written down before the work: their numbers, and when each is due. */
import type { Job } from '../../shared/job.ts';
import type { Walk } from './state.ts';

export interface ToolInUse {
  readonly number: string;
  /** As a date field gives it; empty where it was left open. */
  readonly due: string;
}

/** Empty for a card without such tools, and where none was written down. */
export function toolsInUse({ moves }: Job, { visits }: Walk): readonly ToolInUse[] {
  return moves.flatMap((move, at) => {
    if (move.type !== 'unit') return [];
    return move.lines.flatMap((line, index) => {
      const [number, due] = line.type === 'fields' ? line.fields : [];
      if (number?.kind !== 'tool' || due?.kind !== 'date') return [];
      const [entered = '', day = ''] = visits.get(at)?.at(-1)?.lines.get(index)?.values ?? [];
      return entered === '' ? [] : [{ number: entered, due: day }];
    });
  });
}
