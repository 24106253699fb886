import type { Seconds, Set as SetAction, Stage, Statement, Step } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { rowsIn } from './support/card.ts';
import { replace, type TextOf } from './support/edits.ts';

export const dutyTakes: FindingSort = {
  code: 'duty.takes',
  level: 'hint',
  reads: [],
  title: 'The time of a step passes before its actions',
  help: {
    what: 'A step with “takes” sets an item to a state that has a duty, and that step, the next one or none brings it back. The time of a step passes before its actions, so it is no part of the run that begins here.',
    why: '“takes 30 s set starter cranking” reads as 30 s of cranking, and means 30 s of preparation.',
    whatToDo: 'Say “run … for”, which enters the state, lets the time pass and goes back.',
  },
  sources: [],
  examples: [
    {
      given: `kind starter { off "Release {}", cranking "Hold {}" }
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s }`,
      bad: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step takes 20 s {
  //         ^^^^ duty.takes
    set starter-1 cranking
    wait 10 s
    set starter-1 off
  }
}`,
      good: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 20 s
}`,
    },
  ],
  *inCard({ card, textOf }) {
    for (const row of rowsIn(card.body)) {
      for (const [index, step] of row.entries()) {
        if (step.type !== 'step' || !step.takes || step.takes.most?.equals(0)) continue;
        const begun = changesIn(step).find(hasDuty);
        const back = begun && row.slice(index).find((one) => changesIn(one).some((change) => isAway(change, begun)));
        const next = row[index + 1];
        // What has more to it than to begin and to end has a time of its own.
        if (!begun || (back && back !== step && back !== next)) continue;
        // By the name that the text has for the item: several calls and rounds are told as one.
        const run = `run ${textOf(begun.place.file).slice(begun.place.start, begun.place.end)} for`;
        yield {
          place: step.takes.place,
          message: `This time passes before the run and is no part of it. Say “${run} …”.`,
          fixes: isSoonBack(next, begun, step.takes.least) ? asRun(step, step.takes.place, run, textOf) : [],
        };
      }
    }
  },
};

type Change = SetAction['changes'][number];

function changesIn(statement: Stage | Statement): readonly Change[] {
  if (statement.type !== 'step') return [];
  return statement.actions.flatMap((action) =>
    action.type === 'set' || action.type === 'ensure' ? action.changes : [],
  );
}

function hasDuty({ item, state }: Change): boolean {
  return item.duties.some((duty) => duty.state === state);
}

function isAway({ item, state }: Change, begun: Change): boolean {
  return item === begun.item && state !== begun.state;
}

/** The step brings the item elsewhere before anything else, and no later than a run of that length would: none is cut short. */
function isSoonBack(step: Stage | Statement | undefined, begun: Change, length: Seconds): boolean {
  if (step?.type !== 'step' || step.only || (step.texts.length > 0 && !step.takes)) return false;
  const [first] = step.actions;
  const isFirst = first?.type === 'set' && first.changes.some((change) => isAway(change, begun));
  return isFirst && (!step.takes || (step.takes.most !== undefined && step.takes.most.compare(length) <= 0));
}

/** Where nothing else is done in the step: the run ends with its time. */
function asRun({ actions, place: { file } }: Step, takes: Place, run: string, textOf: TextOf): Fix[] {
  const [action] = actions;
  if (actions.length !== 1 || action?.type !== 'set' || action.changes.length !== 1) return [];
  const text = textOf(file);
  const word = text.slice(0, takes.start).lastIndexOf('takes');
  const time = text.slice(takes.start, takes.end);
  const head = { file, start: word, end: takes.end + (/^\s*/u.exec(text.slice(takes.end))?.[0].length ?? 0) };
  return [{ title: `Write “${run} ${time}”`, edits: [replace(head, ''), replace(action.place, `${run} ${time}`)] }];
}
