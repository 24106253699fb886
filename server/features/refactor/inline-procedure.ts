/** Writes a procedure out where it is done, with its arguments. */
import { all, innermost, type Node, pathAt } from '../../../grammar/navigate.ts';
import type { Do, Procedure, Statement } from '../../../grammar/syntax.ts';
import { indentAt, lineEndOf, reindented } from '../../findings/support/edits.ts';
import type { Snapshot } from '../../snapshot.ts';
import { dependsOnItsPlace, labelsIn, type RefactorContext, type Refactoring } from './refactoring.ts';

export function inlineProcedure({ snapshot, selection, others }: RefactorContext): Refactoring | undefined {
  const path = pathAt(snapshot.parsed.file, selection.start);
  const done = innermost(path, 'do');
  const found = done?.name && findProcedure(done.name.text, [snapshot, ...others]);
  if (!done || !found) return undefined;
  const { procedure, home } = found;
  const statements = procedure.body?.statements ?? [];
  const [first] = statements;
  const last = statements.at(-1);
  if (!first || !last || procedure.parameters.length !== done.arguments.length) return undefined;
  if (dependsOnItsPlace(statements) || labelsIn(statements).declared.size > 0) return undefined;
  if (isNamedOtherwise(statements, procedure, done, path)) return undefined;

  const given = new Map(
    procedure.parameters.map(({ name }, index) => [name.start, done.arguments[index]?.text ?? name.text]),
  );
  const body = withArguments(home, { start: first.start, end: last.end }, given);
  const indented = reindented(body, indentAt(home.text, first.start), indentAt(snapshot.text, done.start));
  const place = { file: snapshot.file, start: done.start, end: done.end };
  return {
    title: `Write ${procedure.name?.text ?? 'the procedure'} out here`,
    kind: 'inline',
    edits: [{ place, newText: indented.replaceAll(/\r\n|\n|\r/g, lineEndOf(snapshot.text)) }],
  };
}

function findProcedure(
  name: string,
  snapshots: readonly Snapshot[],
): { procedure: Procedure; home: Snapshot } | undefined {
  for (const home of snapshots) {
    const procedure = home.parsed.file.declarations.find(
      (one): one is Procedure => one.type === 'procedure' && one.name?.text === name,
    );
    if (procedure) return { procedure, home };
  }
  return undefined;
}

/**
 * Whether a name would stand for something else where it is written out: an argument for each round of the procedure, or what the
 * procedure names for a round or a parameter of what does it.
 */
function isNamedOtherwise(
  statements: readonly Statement[],
  { parameters }: Procedure,
  done: Do,
  around: readonly Node[],
): boolean {
  const rounds = statements.flatMap((one) => all(one, 'for-each')).map(({ name }) => name?.text);
  const local = around.flatMap((node) => {
    if (node.type === 'for-each') return node.name?.text;
    return node.type === 'procedure' ? node.parameters.map(({ name }) => name.text) : [];
  });
  const own = parameters.map(({ name }) => name.text);
  const names = statements.flatMap((one) => all(one, 'name')).filter(({ text }) => !own.includes(text));
  return done.arguments.some(({ text }) => rounds.includes(text)) || names.some(({ text }) => local.includes(text));
}

/** @param given the argument for each parameter, by where the parameter is declared. */
function withArguments(
  home: Snapshot,
  body: { start: number; end: number },
  given: ReadonlyMap<number, string>,
): string {
  const uses = home.bound.references.uses
    .filter(
      ({ place, declared }) =>
        place.file === home.file && declared.place.file === home.file && given.has(declared.place.start),
    )
    .filter(({ place }) => body.start <= place.start && place.end <= body.end)
    .sort((a, b) => b.place.start - a.place.start);
  let text = home.text.slice(body.start, body.end);
  for (const { place, declared } of uses) {
    text =
      text.slice(0, place.start - body.start) + given.get(declared.place.start) + text.slice(place.end - body.start);
  }
  return text;
}
