/** A supply network as it may be at a step: which nodes are fed, which are dead, and which links are closed. */
import { toHtml } from 'hast-util-to-html';
import type { Supply } from '../../../shared/card.ts';
import { graphPicture } from '../../render/pictures/graph.ts';
import { wrapped } from '../../render/pictures/svg.ts';
import { spoken } from '../../render/sentences/labels.ts';
import { conditionWords } from '../hover/describe.ts';
import { type Possible, type Truth, truthOf } from './truth.ts';

/** Characters in a line of a box. */
const boxWidth = 18;

const fedWords: Readonly<Record<Truth, string>> = { yes: 'fed', no: 'dead', either: 'fed or dead' };

export function supplySvg(supply: Supply, possible: Possible): string {
  const links = supply.links.map(({ when }) => (when ? truthOf(when, possible) : 'yes'));
  const fed = fedNodes(supply, links, possible);
  const boxes = supply.nodes.map(({ name, item }, node) => ({
    lines: [...wrapped(item?.label ?? spoken(name), boxWidth), `(${fedWords[fed[node] as Truth]})`],
    shape: fed[node] === 'yes' ? ('source' as const) : ('box' as const),
  }));
  const arrows = supply.links.map(({ from, to, both, when }, index) => ({
    from,
    to,
    both,
    dashed: links[index] === 'no',
    ...(when && { label: `${conditionWords(when)}${links[index] === 'either' ? '?' : ''}` }),
  }));
  return toHtml(graphPicture('supply', description(supply, fed), arrows, [{ boxes, direction: 'LR' }]));
}

/** What surely reaches a node over links that are surely closed, and what may reach it over those that may be. */
export function fedNodes(supply: Supply, links: readonly Truth[], possible: Possible): Truth[] {
  const sources = supply.sources.map(({ node, when }) => ({
    node,
    is: when ? truthOf(when, possible) : ('yes' as const),
  }));
  const surely = reached(
    supply,
    sources.filter(({ is }) => is === 'yes').map(({ node }) => node),
    (link) => links[link] === 'yes',
  );
  const perhaps = reached(
    supply,
    sources.filter(({ is }) => is !== 'no').map(({ node }) => node),
    (link) => links[link] !== 'no',
  );
  return supply.nodes.map((_, node) => {
    if (surely.has(node)) return 'yes';
    return perhaps.has(node) ? 'either' : 'no';
  });
}

function reached({ links }: Supply, from: readonly number[], isClosed: (link: number) => boolean): ReadonlySet<number> {
  const nodes = new Set(from);
  for (const node of nodes) {
    links.forEach(({ from: one, to: other, both }, link) => {
      if (!isClosed(link)) return;
      if (one === node) nodes.add(other);
      if (both && other === node) nodes.add(one);
    });
  }
  return nodes;
}

function description({ label, nodes }: Supply, fed: readonly Truth[]): string {
  return `${label}: ${nodes.map(({ name, item }, node) => `${item?.label ?? spoken(name)} is ${fedWords[fed[node] as Truth]}`).join(', ')}.`;
}
