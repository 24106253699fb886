import { type Node, pathAt } from '../../grammar/navigate.ts';
import type { Parsed } from '../../grammar/syntax.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place, Span } from '../../shared/text.ts';
import type { Bound } from '../binding/bind.ts';
import type { FindingSort } from './finding.ts';
import { remove } from './support/edits.ts';
import { problemsOf, sortName } from './support/problems.ts';

export const nameUnused: FindingSort = {
  code: 'name.unused',
  level: 'hint',
  title: 'A name that nothing uses',
  help: {
    what: 'Something is declared in a file with cards and never named again. Items, gauges and their limits are left alone: they say what the machine has, and the card may come to them yet.',
    why: 'It is left over, or what should use it names something else.',
    whatToDo: 'Take it out, or use it.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"
item vent : valve "the vent valve"`,
      bad: `card wash "Wash" {
  number "1" revision "A"
  crew mechanic "Mechanic" crew lookout "Lookout"
  //                            ^^^^^^^ name.unused
  step by mechanic set drain open
}`,
      good: `card wash "Wash" {
  number "1" revision "A"
  crew mechanic "Mechanic" crew lookout "Lookout"
  step by mechanic set drain open
  step by lookout "Look for leaks."
}`,
    },
  ],
  *inFile({ parsed, bound }) {
    for (const { place, name, sort } of problemsOf(bound, 'unused')) {
      if (isEquipment(sort) || (sort === 'role' && isAlone(place, bound))) continue;
      yield {
        place,
        message: `Nothing uses the ${sortName(sort)} “${name}”. Take it out, or use it.`,
        unnecessary: true,
        fixes: takeOut(place, parsed),
      };
    }
  },
};

/** Where a card has one role, every step is that role's without saying so. */
function isAlone(place: Place, { cards }: Bound): boolean {
  return cards.some(({ crew }) => crew.length === 1 && crew[0]?.place.start === place.start);
}

function isEquipment(sort: string): boolean {
  return sort === 'item' || sort === 'gauge' || sort === 'limit';
}

/** What declares the name goes as a whole; of a step or a stage only its label, of a crew only that role. */
function takeOut(name: Place, { file, text }: Parsed): Fix[] {
  const [declared, around] = pathAt(file, name.start).toReversed().slice(1);
  const gone = declared && around && goneWith(declared, around, name, text);
  if (!gone) return [];
  const edit = remove({ file: name.file, ...gone }, () => text);
  return [{ title: `Take out “${text.slice(name.start, name.end)}”`, edits: [edit] }];
}

function goneWith(declared: Node, around: Node, name: Span, text: string): Span | undefined {
  if (around.type === 'file') return declared;
  if (declared.type === 'step' || declared.type === 'stage') return withWhatFollows(name, text, /^\s*:?\s*/u);
  if (around.type !== 'crew' || declared.type !== 'member') return undefined;
  if (around.members.length === 1) return around;
  const before = around.members[around.members.indexOf(declared) - 1];
  return before ? { start: before.end, end: declared.end } : withWhatFollows(declared, text, /^\s*,\s*/u);
}

function withWhatFollows({ start, end }: Span, text: string, follows: RegExp): Span {
  return { start, end: end + (follows.exec(text.slice(end))?.[0].length ?? 0) };
}
