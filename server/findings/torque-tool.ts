import type { FindingSort } from './finding.ts';
import { actionsIn, statementsIn } from './support/card.ts';

export const torqueTool: FindingSort = {
  code: 'torque.tool',
  level: 'warning',
  title: 'A torque without a calibrated tool',
  help: {
    what: 'A card that uses “std:hand-tools” tightens something to a torque, and lists no tool that is “calibrated”.',
    why: 'A wrench shows what it was set to show. Only one that is in its calibration tells the torque, and nobody asks for its due date where the card does not.',
    whatToDo:
      'Write “calibrated” behind the wrench in “tools”: its number and due date are then written down before the work, and the work copy holds the date against the day and goes on from no torque without the number of the tool.',
  },
  sources: [],
  examples: [
    {
      given: 'use "std:hand-tools"',
      bad: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  tools "Torque wrench 5 to 50 N·m"
  step tighten "the lid bolts" to 25 N.m +/- 2 N.m
  //   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ torque.tool
}`,
      good: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  tools "Torque wrench 5 to 50 N·m" calibrated
  step tighten "the lid bolts" to 25 N.m +/- 2 N.m
}`,
    },
  ],
  *inFile({ bound }) {
    if (!bound.files.includes('std:hand-tools')) return;
    for (const { tools: own, body } of bound.cards) {
      const done = [...statementsIn(body)].flatMap((one) => (one.type === 'do' ? [one.callee] : []));
      const tools = [...own, ...done.flatMap((callee) => (callee.type === 'card' ? callee.tools : []))];
      const [first] = [...actionsIn(body)].filter(({ type }) => type === 'tighten');
      if (!first || tools.some(({ calibrated }) => calibrated)) continue;
      const [wrench] = own.filter(({ text }) => /torque/i.test(text));
      const end = wrench && { ...wrench.place, start: wrench.place.end };
      yield {
        place: first.place,
        message: `No tool of this card is calibrated. Write “calibrated” behind the torque wrench in “tools”.`,
        fixes: end ? [{ title: `${wrench.text}: calibrated`, edits: [{ place: end, newText: ' calibrated' }] }] : [],
      };
    }
  },
};
