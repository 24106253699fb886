/** Which files a file reaches by its `use` lines. Reads nothing itself: a provider gives the parsed texts. */
import { parse } from '../../grammar/parse.ts';
import type { Parsed, Use } from '../../grammar/syntax.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';
import { rulebooks } from '../rulebooks/rulebooks.ts';
import { nearest } from './nearest.ts';
import type { Problems } from './problems.ts';

/** Undefined where there is no such file. */
export type Files = (path: string) => Parsed | undefined;

export interface ReachedFile {
  readonly path: string;
  readonly parsed: Parsed;
  /** The `use` in the bound file that leads here; absent for the bound file itself and for what is always in scope. */
  readonly through?: Place;
  /** Paths of the files that it uses directly. */
  readonly uses: readonly string[];
}

export interface Reach {
  /** Each file after the files that it uses; the bound file is the last. */
  readonly files: readonly ReachedFile[];
  /** Some file is missing, so that names may come from there. */
  readonly incomplete: boolean;
}

/** The kinds that are in scope in every file. */
export const standardKinds = 'std:kinds';

/**
 * The path that a `use` in the file `from` means. Paths may be those of the system or URIs; a rulebook's name stays as it is.
 */
export function resolveUse(from: string, target: string): string {
  if (target.startsWith('std:')) return target;
  const slashed = target.replaceAll('\\', '/');
  if (/^([a-z][a-z0-9+.-]+:|\/|[A-Za-z]:)/.test(slashed)) return slashed;
  const [root = ''] = /^([a-z][a-z0-9+.-]+:\/\/[^/]*)?\/?/i.exec(from) ?? [];
  const folders = from.slice(root.length).split('/').slice(0, -1);
  for (const part of slashed.split('/')) {
    const isBelow = root !== '' || (folders.length > 0 && folders.at(-1) !== '..');
    if (part === '..' && isBelow) folders.pop();
    else if (part !== '.' && part !== '') folders.push(part);
  }
  return root + folders.join('/');
}

/** As a `use` line writes it: `../plant/pumps.card`. */
export function wayBetween(from: string, to: string): string {
  const start = from.split('/').slice(0, -1);
  const end = to.split('/');
  let shared = 0;
  while (shared < start.length && start[shared] === end[shared]) shared++;
  return [...start.slice(shared).map(() => '..'), ...end.slice(shared)].join('/');
}

const parsedRulebooks = new Map<string, Parsed>();

/** A shipped rulebook, parsed once. */
export function rulebook(name: string): Parsed | undefined {
  const text = rulebooks.get(name);
  if (text === undefined) return undefined;
  return getOrInsert(parsedRulebooks, name, () => parse(text));
}

/** Follows the `use` lines from a file, each file once. */
export function reach(path: string, provided: Files, problems: Problems): Reach {
  const walk = new Walk(path, provided, problems);
  walk.add(standardKinds, []);
  walk.add(path, []);
  return { files: walk.files, incomplete: walk.incomplete };
}

/** A `use` on the way from the bound file to where the walk stands. */
interface Followed {
  readonly path: string;
  readonly place: Place;
}

class Walk {
  readonly files: ReachedFile[] = [];
  incomplete = false;
  private readonly known = new Set<string>();

  constructor(
    private readonly root: string,
    private readonly provided: Files,
    private readonly problems: Problems,
  ) {}

  /** Adds a file after all that it uses. False where there is no such file. */
  add(path: string, way: readonly Followed[]): boolean {
    if (this.known.has(path)) return true;
    const parsed = path.startsWith('std:') ? rulebook(path) : this.provided(path);
    if (parsed === undefined) return false;
    this.known.add(path);
    const uses = parsed.file.declarations.filter((declaration): declaration is Use => declaration.type === 'use');
    const targets = uses.flatMap((use) => this.follow(use, path, way));
    const through = way[0]?.place;
    this.files.push({ path, parsed, uses: targets, through });
    return true;
  }

  private follow(use: Use, from: string, way: readonly Followed[]): string[] {
    if (use.path === undefined) return [];
    const target = resolveUse(from, use.path.value);
    const place = { file: from, start: use.path.start, end: use.path.end };
    const onward = [...way, { path: target, place }];
    if (this.reportsCircle(target, onward)) return [];
    if (this.add(target, onward)) return [target];
    this.incomplete = true;
    const near = target.startsWith('std:') ? nearest(target, rulebooks.keys()) : [];
    this.problems.add({ type: 'missing-file', place, path: use.path.value, near });
    return [];
  }

  /** A circle that comes back to the bound file stands at its own `use`, any other where it closes. */
  private reportsCircle(target: string, onward: readonly Followed[]): boolean {
    const way = [this.root, ...onward.map((step) => step.path)];
    const first = way.indexOf(target);
    if (first === way.length - 1) return false;
    const { path, place } = (first === 0 ? onward[0] : onward.at(-1)) as Followed;
    // As the file in which it stands says it too: so it is told once.
    const through = first === 0 ? way.slice(1) : way.slice(first, -1);
    this.problems.add({ type: 'use-cycle', place, path, through });
    return true;
  }
}
