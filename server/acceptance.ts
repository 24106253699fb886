/** What the writer accepts: which findings are silenced where, and which acceptances silence nothing. */
import { all, type Node, parents } from '../grammar/navigate.ts';
import type { Accept, Parsed } from '../grammar/syntax.ts';
import type { Finding } from '../shared/finding.ts';
import { holds, type Place } from '../shared/text.ts';
import { findSort } from './findings/all.ts';

export interface Acceptance {
  readonly code: string;
  readonly because: string;
  /** Who accepts it; absent where nobody has put a name to it yet. */
  readonly by?: string;
  readonly place: Place;
  /** The step, stage, procedure or card that it stands in. */
  readonly extent: Place;
}

export function canBeAccepted(code: string): boolean {
  return !findSort(code)?.notUnderstood;
}

/** A card prints the reason: dots are none. */
export function hasReason({ because }: Acceptance): boolean {
  return isSaid(because);
}

function isSaid(text: string): boolean {
  return /[\p{L}\p{N}]/u.test(text);
}

export function acceptancesIn(file: string, { file: root }: Parsed): Acceptance[] {
  const accepts = all(root, 'accept').filter(isComplete);
  if (accepts.length === 0) return [];
  const above = parents(root);
  return accepts.map((accept) => ({
    code: accept.code.text,
    because: accept.because.value,
    ...(accept.by && isSaid(accept.by.value) && { by: accept.by.value }),
    place: placeOf(file, accept),
    extent: placeOf(file, extentOf(accept, above)),
  }));
}

function isComplete(accept: Accept): accept is Accept & Required<Pick<Accept, 'code' | 'because'>> {
  return accept.code !== undefined && accept.because !== undefined;
}

function extentOf(accept: Node, above: ReadonlyMap<Node, Node>): Node {
  let node = accept;
  for (let outer = above.get(node); outer && outer.type !== 'file'; outer = above.get(node)) {
    node = outer;
    if (node.type === 'step' || node.type === 'stage') return node;
  }
  return node;
}

function placeOf(file: string, { start, end }: Node): Place {
  return { file, start, end };
}

/** A finding that is accepted, and by what. */
export interface Accepted {
  readonly finding: Finding;
  readonly acceptance: Acceptance;
}

export interface Sifted {
  readonly standing: readonly Finding[];
  readonly silenced: readonly Accepted[];
  readonly unused: readonly Acceptance[];
}

/** Takes out the findings that are accepted where they stand. */
export function sift(findings: readonly Finding[], acceptances: readonly Acceptance[]): Sifted {
  const used = new Set<Acceptance>();
  const silenced: Accepted[] = [];
  const standing = findings.filter((finding) => {
    const accepting = acceptances.filter((acceptance) => accepts(acceptance, finding));
    for (const acceptance of accepting) used.add(acceptance);
    const [acceptance] = accepting;
    if (acceptance) silenced.push({ finding, acceptance });
    return acceptance === undefined;
  });
  return { standing, silenced, unused: acceptances.filter((acceptance) => !used.has(acceptance)) };
}

function accepts(acceptance: Acceptance, finding: Finding): boolean {
  const { code, extent } = acceptance;
  return code === finding.code && holds(extent, finding.place) && canBeAccepted(code) && hasReason(acceptance);
}
