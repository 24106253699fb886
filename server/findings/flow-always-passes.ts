import type { Card } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { BranchFact } from '../proof/questions/branches.ts';
import type { FindingSort } from './finding.ts';
import { statementsIn } from './support/card.ts';
import { indentAt, reindented, replace, type TextOf } from './support/edits.ts';

export const flowAlwaysPasses: FindingSort = {
  code: 'flow.always-passes',
  level: 'hint',
  everyPath: true,
  reads: ['words', 'proof'],
  title: 'A branch that holds on every path',
  help: {
    what: 'Whatever happened before, the condition of this if or repeat holds here. Checks are left alone: a second look is good. So is the last else if of a row, which says for which case it is.',
    why: 'A question with one answer looks like a choice to the reader.',
    whatToDo: 'Take the condition away, or look whether it asks for what was meant.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check drain closed
  if drain closed {
//^ flow.always-passes
    step "Look at the drain valve."
  }
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check drain closed
  step "Look at the drain valve."
}`,
    },
  ],
  *inCard({ card, proof, textOf }) {
    const passing = proof.branches.filter(({ form, passes, fails }) => form === 'if' && passes && !fails);
    const later: ReadonlySet<unknown> = passing.length === 0 ? new Set() : laterLinks(card);
    for (const fact of passing) {
      if (later.has(fact.statement)) continue;
      yield {
        place: fact.place,
        message: 'This holds on every path. Take the condition away, or ask for what was meant.',
        fixes: withoutCondition(fact.statement, textOf),
      };
    }
  },
};

/** The `else if`s: the last of a row that leaves nothing out always holds, and says for which case it is. */
function laterLinks(card: Card): ReadonlySet<unknown> {
  const links = [...statementsIn(card.body)].filter((statement) => statement.type === 'if' && statement.chained);
  return new Set(links.flatMap((link) => (link.type === 'if' ? (link.otherwise ?? []) : [])));
}

/** What stands in the braces by itself. What stands behind an `else` is never done, and is for the writer to take out. */
function withoutCondition(statement: BranchFact['statement'], textOf: TextOf): Fix[] {
  if (statement.type !== 'if' || statement.otherwise) return [];
  const { file, start, end } = statement.place;
  const text = textOf(file);
  const opening = text.indexOf('{', statement.head.end);
  const first = opening + 1 + text.slice(opening + 1).search(/\S/u);
  const body = text.slice(first, end - 1).trimEnd();
  const newText = reindented(body, indentAt(text, first), indentAt(text, start));
  return opening < 0 || body === ''
    ? []
    : [{ title: 'Take the condition away', edits: [replace(statement.place, newText)] }];
}
