import { pathAt } from '../../grammar/navigate.ts';
import { lowered } from '../../shared/text.ts';
import type { Barrier } from '../binding/problems.ts';
import type { FileFacts, FindingSort, Found } from './finding.ts';
import { asText } from './support/edits.ts';
import { aSort, changeTo, didYouMean, misfitsOf, type ProblemOf, problemsOf, sortName } from './support/problems.ts';
import { pathPlace } from './support/words.ts';

const barriers: Readonly<Record<Barrier, string>> = {
  'into a block': 'it stands inside a block, and a “go to” cannot jump into one',
  'into a lane': 'it stands in a lane of a “together”, and a “go to” cannot jump into one',
  'out of a lane': 'a “go to” cannot leave a lane of a “together”',
  'into a when-stopped stage': 'a stage “when stopped” is entered by a stop alone',
  'several titles':
    'several stages have this title. Give the one that is meant a name before its title, and go to that',
};

export const nameUnknown: FindingSort = {
  code: 'name.unknown',
  level: 'error',
  notUnderstood: true,
  title: 'A name that stands for nothing here',
  help: {
    what: 'A name, state, label, limit, node, file or part that is fitted is not declared, is of another sort than is needed here, or cannot be reached from here.',
    why: 'What it stands for is not proved, and the reader cannot find it.',
    whatToDo: 'Correct the spelling (the nearest names are proposed), declare it, or “use” the file that does.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check drain closd
  //               ^^^^^ name.unknown
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check drain closed
}`,
    },
  ],
  *inFile(facts) {
    for (const problem of problemsOf(facts.bound, 'unknown-name')) yield unknownName(problem, facts);
    for (const problem of problemsOf(facts.bound, 'wrong-sort')) yield wrongSort(problem);
    for (const problem of problemsOf(facts.bound, 'unreachable-label')) yield unreachableLabel(problem);
    for (const { place, path, near } of problemsOf(facts.bound, 'missing-file')) {
      yield {
        place,
        message: `There is no file “${path}” here. ${didYouMean(near, 'Write its path from the folder of this file; outside of the workspace, name the folder in the setting “useFolders”.')}`,
        fixes: changeTo(place, near.map(asText)),
      };
    }
    for (const { place, name, of, near } of problemsOf(facts.bound, 'unlisted-part')) {
      const card = of === undefined ? 'this card' : `“${of}”, which does this,`;
      const message = `The “parts” of ${card} do not list “${name}”. ${didYouMean(near, 'Write it as it stands there, or add it.')}`;
      yield { place, message, fixes: changeTo(place, near.map(asText)) };
    }
    for (const { place, label } of problemsOf(facts.bound, 'on-no-supply')) {
      const message = `No supply leads to ${label}, and a rule asks what feeds it. Link in a supply what can move it, heat it or put it under pressure.`;
      yield { place, message };
    }
    yield* supplyNodes(facts);
    yield* argumentsOf(facts);
  },
};

function unknownName(
  { place, name, sort, of, near, among = [] }: ProblemOf<'unknown-name'>,
  { parsed }: FileFacts,
): Found {
  const isInProcedure = pathAt(parsed.file, place.start).some(({ type }) => type === 'procedure');
  if (sort === 'label' && near.length === 0 && isInProcedure)
    return {
      place,
      message: `No stage or step of this procedure is called ${quoted(name)}, and a procedure leads nowhere else. Ask in the card, behind the “do”, and go there from it; or write stop "…" here.`,
    };
  const others = among.length > 0 ? `It has ${among.map(quoted).join(', ')}.` : toDeclare(name, sort);
  return {
    place,
    message: `${absence(name, sort, of)} ${didYouMean(near.map(withoutQuotes), others)}`,
    fixes: changeTo(place, near),
  };
}

function toDeclare(name: string, sort: ProblemOf<'unknown-name'>['sort']): string {
  if (sort === 'kind')
    return `Declare it with its states, as in “kind ${name} { good, worn }”. The page std:kinds has those that need no declaring.`;
  if (sort !== 'label') return 'Correct the name, or declare it.';
  return name.startsWith('"')
    ? 'Correct it.'
    : `Name the step so: “step ${name}: …”, or the stage: “stage ${name} "TITLE" { … }”.`;
}

function absence(name: string, sort: ProblemOf<'unknown-name'>['sort'], of: string | undefined): string {
  if (sort === 'label')
    return name.startsWith('"')
      ? `No stage here has the title ${name}.`
      : `No stage or step here has the label “${name}”.`;
  return of ? `There is no ${sortName(sort)} “${name}” of ${of}.` : `There is no ${sortName(sort)} “${name}”.`;
}

function wrongSort({ place, name, expected, found, declared }: ProblemOf<'wrong-sort'>): Found {
  return {
    place,
    message: `“${name}” is ${aSort(found)}; ${aSort(expected)} is needed here.`,
    path: [pathPlace(declared, `“${name}” is declared here`)],
  };
}

function unreachableLabel({ place, name, reason, declared }: ProblemOf<'unreachable-label'>): Found {
  return {
    place,
    message: `The path cannot go to ${quoted(name)} from here: ${barriers[reason]}.`,
    path: [pathPlace(declared, `${quoted(name)} stands here`)],
  };
}

function withoutQuotes(name: string): string {
  return name.startsWith('"') ? name.slice(1, -1) : name;
}

/** A title has its quotes already. */
function quoted(name: string): string {
  return name.startsWith('"') ? name : `“${name}”`;
}

function* supplyNodes({ bound }: FileFacts): Iterable<Found> {
  for (const { place, name, supply, near } of problemsOf(bound, 'unreachable-node')) {
    yield {
      place,
      message: `No source of ${supply} reaches “${name}”, even with every link closed. ${didYouMean(near, 'Add the link that leads to it, or correct the name.')}`,
      fixes: changeTo(place, near),
    };
  }
  for (const { place, label, name, supply } of problemsOf(bound, 'not-on-supply')) {
    yield {
      place,
      message: `${label} needs ${supply}, but no link of it leads to ${name}. Add the link, or name the supply that feeds it.`,
    };
  }
}

function* argumentsOf({ bound, parsed }: FileFacts): Iterable<Found> {
  for (const { place, name, expected, found } of problemsOf(bound, 'argument-count')) {
    // What stands there was not understood, which is told of it.
    if (parsed.problems.some(({ span }) => place.start <= span.start && span.end <= place.end)) continue;
    const wanted = expected.length === 0 ? 'nothing' : expected.join(', ');
    yield { place, message: `“${name}” is given ${found === 0 ? 'nothing' : found}; it takes ${wanted}.` };
  }
  for (const { place, name, parameter, expected, found } of problemsOf(bound, 'argument-kind')) {
    yield { place, message: `“${name}” is of kind ${found}; for “${parameter}” one of kind ${expected} is needed.` };
  }
  for (const { place, label, parameter, misfit } of misfitsOf(bound, 'unknown-name')) {
    yield {
      place,
      message: `The procedure cannot be done with ${label} as “${parameter}”: ${lowered(absence(misfit.name, misfit.sort, misfit.of))}`,
    };
  }
}
