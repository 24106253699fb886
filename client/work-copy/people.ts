/** Who works at a job. */
import type { Job, MoveIndex } from '../../shared/job.ts';
import { type Entry, marked } from './entries.ts';
import type { Walk } from './state.ts';
import { isSameName } from './texts.ts';

/** Who works from here on, one for each role. */
export function namesAfter(entry: Entry, names: readonly string[]): readonly string[] {
  if (entry.type === 'head') return entry.names;
  return entry.type === 'hand-over' ? names.map((name) => (isSameName(name, entry.from) ? entry.to : name)) : names;
}

/** Each entry, and who works from there on. */
export function named(entries: readonly Entry[]) {
  let names: readonly string[] = [];
  return marked(entries).map(({ entry, undone }) => {
    if (!undone) names = namesAfter(entry, names);
    return { entry, undone, names };
  });
}

/** The first that stands there twice. */
export function sharedName(names: readonly string[]): string | undefined {
  return names.find((name, index) => names.slice(0, index).some((other) => isSameName(name, other)));
}

/** Whoever does a unit. */
export function peopleAt({ moves, roles }: Job, { names }: Walk, move: MoveIndex): readonly string[] {
  const unit = moves[move];
  if (unit?.type !== 'unit') return [];
  return roles.length === 0 ? names : unit.by.flatMap((role) => names[role] ?? []);
}
