/** Supplies: networks of nodes, sources and links. A node is declared by being named; one with an item's name is that item. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Supply, SupplyLink } from '../../shared/card.ts';
import { bindCondition } from './conditions.ts';
import type { Found } from './declare.ts';
import { type Building, inWords, type NodeEntry, placeOf, type Work } from './names.ts';
import { nearest } from './nearest.ts';

type SupplyInMaking = Omit<Building<Supply>, 'nodes' | 'sources' | 'links'> & {
  nodes: Supply['nodes'][number][];
  sources: Supply['sources'][number][];
  links: SupplyLink[];
};

/** Supplies with their nodes; `finish` adds sources and links, whose conditions may speak of anything. */
export function bindSupplies(
  work: Work,
  found: readonly Found<syntax.Supply>[],
): { supplies: readonly Supply[]; finish: () => void } {
  const supplies = found.map((each, id): SupplyInMaking => {
    const { node, declared } = each;
    const label = node.label?.value ?? inWords(declared.name);
    const supply: SupplyInMaking = {
      id,
      name: declared.name,
      label,
      nodes: [],
      sources: [],
      links: [],
      place: declared.place,
    };
    work.names.things.set(declared.name, { sort: 'supply', declared, supply });
    work.names.nodes.set(supply, declareNodes(work, supply, each));
    return supply;
  });
  return {
    supplies,
    finish: () => {
      for (const [index, supply] of supplies.entries()) addParts(work, supply, found[index] as Found<syntax.Supply>);
    },
  };
}

function declareNodes(
  work: Work,
  supply: SupplyInMaking,
  { scope, node, declared }: Found<syntax.Supply>,
): Map<string, NodeEntry> {
  const entries = new Map<string, NodeEntry>();
  for (const name of node.parts.flatMap(namesIn)) {
    const thing = work.names.things.get(name.text);
    const item = thing?.item;
    const known = entries.get(name.text);
    if (thing?.sort === 'item') work.references.use(name, scope.file, thing.declared);
    else if (known) work.references.use(name, scope.file, known.declared);
    if (known) continue;
    const nodeDeclared =
      thing?.sort === 'item' ? thing.declared : work.references.declare('node', name, scope.file, declared);
    entries.set(name.text, { declared: nodeDeclared, index: supply.nodes.length });
    supply.nodes.push({ name: name.text, item, place: placeOf(scope, name) });
  }
  return entries;
}

function namesIn(part: syntax.Supply['parts'][number]): syntax.Name[] {
  const names = part.type === 'source' ? [part.node] : part.type === 'link' ? [part.from, part.to] : [];
  return names.filter((name) => name !== undefined);
}

function addParts(work: Work, supply: SupplyInMaking, { scope, node }: Found<syntax.Supply>): void {
  const indexOf = (name: syntax.Name | undefined) => name && work.names.nodes.get(supply)?.get(name.text)?.index;
  for (const part of node.parts) {
    if (part.type === 'broken') continue;
    const place = placeOf(scope, part);
    const when = part.when && bindCondition(scope, part.when, place);
    if (part.type === 'source') {
      const source = indexOf(part.node);
      if (source !== undefined) supply.sources.push({ node: source, place, when });
      continue;
    }
    const [from, to] = [indexOf(part.from), indexOf(part.to)];
    if (from !== undefined && to !== undefined) supply.links.push({ from, to, both: part.both, place, when });
  }
  reportUnreached(work, supply);
}

// ---------------------------------------------------------------- slips of the pen

/**
 * A node that no source reaches even with every link closed was meant to be another one. What hangs on it is not reported again;
 * neither is anything where part of the supply was not understood.
 */
function reportUnreached(work: Work, supply: SupplyInMaking): void {
  const reached = reachedFrom(
    supply,
    supply.sources.map(({ node }) => node),
  );
  const isLost =
    supply.nodes.some(({ name }) => work.lost.has(name)) || work.lost.has('source') || work.lost.has('link');
  if (isLost) return;
  const known = [...reached].map((index) => supply.nodes[index]?.name ?? '');
  const accounted = new Set(reached);
  for (const index of rootsFirst(supply, reached)) {
    if (accounted.has(index)) continue;
    for (const further of reachedFrom(supply, [index])) accounted.add(further);
    const { name, place } = supply.nodes[index] as Supply['nodes'][number];
    work.problems.add({ type: 'unreachable-node', place, name, supply: supply.label, near: nearest(name, known) });
  }
}

function reachedFrom(supply: SupplyInMaking, starts: readonly number[]): Set<number> {
  const onward = new Map<number, number[]>();
  const add = (from: number, to: number) => onward.set(from, [...(onward.get(from) ?? []), to]);
  for (const { from, to, both } of supply.links) {
    add(from, to);
    if (both) add(to, from);
  }
  const reached = new Set(starts);
  for (const node of reached) for (const next of onward.get(node) ?? []) reached.add(next);
  return reached;
}

/** Nodes that nothing leads to come first, since the others may hang on them. */
function rootsFirst(supply: SupplyInMaking, reached: ReadonlySet<number>): number[] {
  const led = new Set(supply.links.flatMap(({ from, to, both }) => (both ? [from, to] : [to])));
  const unreached = supply.nodes.map((_, index) => index).filter((index) => !reached.has(index));
  return [...unreached.filter((index) => !led.has(index)), ...unreached.filter((index) => led.has(index))];
}
