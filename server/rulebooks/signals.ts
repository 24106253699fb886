import type { Rulebook } from './rulebook.ts';
import text from './signals.card';

export const signals: Rulebook = {
  name: 'std:signals',
  text,
  about:
    'The signal word of each hazard by what it does, after ANSI Z535.4-2007: “will kill” is danger, “could kill” warning, “could injure” caution; what damages things only is a note, printed in the colours of a notice and without the alert triangle. Of a minor injury that is sure to come the table says nothing: it is taken for caution. Other standards use caution for damage, so a file asks for this one by using it.',
  good: `use "std:signals"

item oven : heater "the oven"  normally off

hazard heat "heat" while oven on {
  could injure
  caution "Hot racks burn. Wear gloves."
}
`,
  findings: ['signal.word'],
};
