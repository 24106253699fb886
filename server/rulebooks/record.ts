import text from './record.card';
import type { Rulebook } from './rulebook.ts';

const good = `use "std:record"

item panel : access-panel  "the panel of the servo"
item servo : critical-task "the servo"

card change-servo "Change the servo" {
  number     "S-1"
  revision   "A" on 2026-03-02
  references "Maintenance manual of the servo, 4-1"
  crew       fitter "Fitter", inspector "Inspector" qualified "Independent inspection"

  step by fitter     set tools-in done
  step by fitter     set panel open
  step by fitter     set servo done
  step by inspector  set servo inspected
  step by fitter     set tools-out done
  step by fitter     set panel closed
}
`;

const counted = '  step by fitter     set tools-out done\n';
const closed = '  step by fitter     set panel closed\n';
const first = '  step by fitter     set tools-in done\n';
const opened = '  step by fitter     set panel open\n';
const inspected = '  step by inspector  set servo inspected\n';

export const record: Rulebook = {
  name: 'std:record',
  text,
  about:
    'What the record of maintenance asks of a card: its number, the day of its revision and the manual by which the work is done; tools counted in and out, panels opened and closed, critical tasks inspected by somebody else (145.A.48). Work may stop where a stage ends (145.A.45): until then a critical task that is done is inspected, and a panel is closed and the tools are counted, or what stays open is written down (“open-items”). The record at the end has the fields of 14 CFR 43.9, unless the setting “record” gives others.',
  good,
  slips: {
    'count-tools-first': [
      [first, ''],
      [opened, opened + first],
    ],
    'count-tools-back': [
      [counted, ''],
      [closed, closed + counted],
    ],
    'count-once-more': [[first, counted + first]],
    'panels-closed': [[closed, '']],
    'inspect-critical': [[inspected, '']],
  },
  findings: [
    'record.open-over-stages',
    'record.own-inspection',
    'record.task-over-stages',
    'card.missing-field',
    'crew.own-inspection',
  ],
};
