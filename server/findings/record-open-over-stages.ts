import type { Card, Role, Stage } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { FindingSort } from './finding.ts';
import { insertAfter, type TextOf } from './support/edits.ts';
import { type HandledItem, handledItems } from './support/hands.ts';
import { type FoundInCall, foundOnMachines } from './support/machines.ts';
import { type Begun, type Followed, reachingFinish, reachingOverStages } from './support/reaching.ts';

export const recordOpenOverStages: FindingSort = {
  code: 'record.open-over-stages',
  level: 'warning',
  reads: ['proof'],
  title: 'A panel is open, or tools are not counted back, where work may stop',
  help: {
    what: 'A panel (“std:record”) is opened in one stage, or tools are counted in, and a path goes on to another stage before it is closed, or they are counted back, and before anybody writes that down. Tools that are counted in are counted back by the end of the card, too.',
    why: 'Work may stop where a stage ends: another shift closes up what looks whole, with something undone or a tool behind it.',
    whatToDo:
      'Close the panel and count the tools before the stage ends, or write down there what is open and what stays in it (“set open-items listed”). A quick fix writes that step.',
  },
  sources: [
    {
      title: 'UK 145.A.45(e) and its guidance: stages are the points at which work can be interrupted',
      status: 'seen',
    },
    { title: 'UK 145.A.48(a): clear of tools and parts, and all removed panels refitted', status: 'seen' },
  ],
  examples: [
    {
      given: 'use "std:record"\nitem panel : access-panel "the panel of the servo"',
      bad: `card servo "Servo" {
  number "1" revision "A" on 2026-03-02 crew fitter "Fitter"
  references "Manual of the servo, 4-1"
  stage "Take it out" {
    step set tools-in done
    //       ^^^^^^^^^^^^^ record.open-over-stages
    step set panel open
    //       ^^^^^^^^^^ record.open-over-stages
  }
  stage "Put it in" {
    step set tools-out done
    step set panel closed
  }
}`,
      good: `card servo "Servo" {
  number "1" revision "A" on 2026-03-02 crew fitter "Fitter"
  references "Manual of the servo, 4-1"
  stage "Take it out" {
    step set tools-in done
    step set panel open
    step set open-items listed
  }
  stage "Put it in" {
    step set tools-out done
    step set panel closed
  }
}`,
    },
  ],
  inCard({ card, proof, textOf }) {
    const all = [...handledItems(card, 'std:record')];
    const over = reachingOverStages(proof, card, all, unlisted);
    const left = reachingFinish(proof, all, { ...opened, begins: (one) => meaningOf(one).opens === tools });
    return foundOnMachines(card, (_, machines) => [
      ...over(machines).flatMap((one) => (one.stage ? [told(one, one.stage, card, textOf)] : [])),
      ...left(machines).map((one) => toldAtEnd(one, card, textOf)),
    ]);
  },
};

const opened: Followed = {
  begins: (handled) => meaningOf(handled).opens !== undefined,
  ends: (later, earlier) => {
    const { shuts } = meaningOf(later);
    return shuts !== undefined && shuts === meaningOf(earlier).opens;
  },
};

/** What is written down is known to whoever goes on. */
const unlisted: Followed = {
  ...opened,
  ends: (later, earlier) => (later.kind === 'open-list' && later.becomes === 'listed') || opened.ends(later, earlier),
};

const tools = 'tools-in';

/** What is open from here, or no longer, by its name. */
function meaningOf({ item, kind, becomes }: HandledItem): { readonly opens?: string; readonly shuts?: string } {
  if (kind === 'access-panel') return becomes === 'open' ? { opens: item.name } : { shuts: item.name };
  if (kind !== 'tool-count' || becomes !== 'done') return {};
  if (item.name === tools) return { opens: tools };
  return item.name === 'tools-out' ? { shuts: tools } : {};
}

function told({ item, kind, place, hands, call }: Begun, stage: Stage, card: Card, textOf: TextOf): FoundInCall {
  const what = kind === 'access-panel' ? `${item.label} open` : 'the tools not counted back';
  const mend = kind === 'access-panel' ? 'Close it' : 'Count them';
  return {
    place,
    call,
    message: `“${stage.title}” ends with ${what}, and work may stop there. ${mend} before, or write down what is open.`,
    source: kind === 'access-panel' ? 'UK 145.A.45(e)' : 'UK 145.A.48(a)',
    fixes: writeLast('set open-items listed', stage.body, roleOf(hands, card), textOf),
  };
}

function toldAtEnd({ place, hands, call }: Begun, card: Card, textOf: TextOf): FoundInCall {
  const lastStage = card.body.findLast((part): part is Stage => part.type === 'stage' && !part.whenStopped);
  return {
    place,
    call,
    message: 'These tools are counted in, and not counted back by the end of the card. Write “set tools-out done”.',
    source: 'UK 145.A.48(a)',
    fixes: writeLast('set tools-out done', lastStage?.body ?? card.body, roleOf(hands, card), textOf),
  };
}

/** Where there is one role alone, no step says who does it. */
function roleOf([first]: readonly Role[], { crew }: Card): string | undefined {
  return crew.length > 1 ? first?.name : undefined;
}

type Body = Card['body'];

/** As the last step; not behind what ends the card or leads away. */
function writeLast(action: string, body: Body, role: string | undefined, textOf: TextOf): Fix[] {
  const last = body.at(-1);
  if (!last || last.type === 'finish' || last.type === 'stop' || last.type === 'go') return [];
  const step = `step${role === undefined ? '' : ` by ${role}`} ${action}`;
  return [{ title: `Insert: ${step}`, edits: [insertAfter(last.place, step, textOf)] }];
}
