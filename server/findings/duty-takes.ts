import type { Item, Step } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { stepsIn } from './support/card.ts';
import { replace, type TextOf } from './support/edits.ts';

export const dutyTakes: FindingSort = {
  code: 'duty.takes',
  level: 'hint',
  reads: [],
  title: 'The time of a step passes before its actions',
  help: {
    what: 'A step with “takes” sets an item to a state that has a duty. The time of a step passes before its actions, so it is no part of the run that begins here.',
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
    for (const { step } of stepsIn(card.body)) {
      const begun = step.takes && dutyBegunBy(step);
      if (!step.takes || !begun) continue;
      const state = begun.item.kind.states[begun.state]?.name;
      yield {
        place: step.takes.place,
        message: `This time passes before the run and is no part of it: ${begun.item.label} ${state}. Say run ${begun.item.name} ${state} for …`,
        fixes: asRun(step, step.takes.place, `run ${begun.item.name} ${state} for`, textOf),
      };
    }
  },
};

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

function dutyBegunBy(step: Step): { readonly item: Item; readonly state: number } | undefined {
  return step.actions
    .flatMap((action) => (action.type === 'set' || action.type === 'ensure' ? action.changes : []))
    .find(({ item, state }) => item.duties.some((duty) => duty.state === state));
}
