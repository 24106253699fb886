/** Puts a written-out bound into a named limit of its gauge, so that it stands in one place. */
import { innermost, pathAt } from '../../../grammar/navigate.ts';
import type { BoundNode, Gauge, Name } from '../../../grammar/syntax.ts';
import type { TextEdit } from '../../../shared/finding.ts';
import { indentAt, lineEndOf } from '../../findings/support/edits.ts';
import type { Snapshot } from '../../snapshot.ts';
import type { RefactorContext, Refactoring } from './refactoring.ts';

export function extractLimit({ snapshot, selection, others }: RefactorContext): Refactoring | undefined {
  const asked = askedBound(snapshot, selection.start);
  const found = asked && findGauge(asked.gauge.text, [snapshot, ...others]);
  if (!asked || !found) return undefined;
  const { gauge, home } = found;
  const written = snapshot.text.slice(asked.bound.start, asked.bound.end);
  const same = gauge.parts.find(
    (part) => part.type === 'limit' && part.bound && home.text.slice(part.bound.start, part.bound.end) === written,
  );
  const known = same?.type === 'limit' ? same.name?.text : undefined;
  const name = known ?? freeLimitName(gauge);
  const place = { file: snapshot.file, start: asked.bound.start, end: asked.bound.end };
  return {
    title: known ? `Use the limit ${known}` : 'Put this bound into a named limit of the gauge',
    kind: 'extract',
    edits: [...(known ? [] : [addLimit(gauge, home, `limit ${name} ${written}`)]), { place, newText: `in ${name}` }],
  };
}

/** A bound in a place where a limit's name could stand. */
function askedBound({ parsed }: Snapshot, offset: number): { gauge: Name; bound: BoundNode } | undefined {
  const path = pathAt(parsed.file, offset);
  const asking = innermost(path, 'read', 'bring', 'bound-term');
  const bound = innermost(path, 'bound');
  return asking?.gauge && bound && asking.bound === bound ? { gauge: asking.gauge, bound } : undefined;
}

function findGauge(name: string, snapshots: readonly Snapshot[]): { gauge: Gauge; home: Snapshot } | undefined {
  for (const home of snapshots) {
    const gauge = home.parsed.file.declarations.find(
      (one): one is Gauge => one.type === 'gauge' && one.name?.text === name,
    );
    if (gauge && !home.file.startsWith('std:')) return { gauge, home };
  }
  return undefined;
}

function freeLimitName(gauge: Gauge): string {
  const taken = gauge.parts.map((part) => (part.type === 'limit' ? part.name?.text : undefined));
  let name = 'new-limit';
  for (let count = 2; taken.includes(name); count++) name = `new-limit-${count}`;
  return name;
}

/** After the last part of the gauge, or in braces of its own. */
function addLimit(gauge: Gauge, { file, text }: Snapshot, limit: string): TextEdit {
  const last = gauge.parts.at(-1);
  if (!last) return { place: { file, start: gauge.end, end: gauge.end }, newText: ` { ${limit} }` };
  const isOnOwnLine = /^[ \t]*$/.test(text.slice(text.lastIndexOf('\n', last.start - 1) + 1, last.start));
  const before = isOnOwnLine ? `${lineEndOf(text)}${indentAt(text, last.start)}` : '   ';
  return { place: { file, start: last.end, end: last.end }, newText: before + limit };
}
