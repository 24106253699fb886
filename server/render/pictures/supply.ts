/** A supply network: from its sources over its links to what it feeds, with what must be so on each link. */
import type { Element } from 'hast';
import type { Supply } from '../../../shared/card.ts';
import type { Context } from '../context.ts';
import { conditionText, nodeText } from '../sentences/conditions.ts';
import { capitalised } from '../sentences/labels.ts';
import { graphPicture } from './graph.ts';
import { wrapped } from './svg.ts';

const boxWidth = 18;

export function supplyPicture(supply: Supply, context: Context): Element {
  const { words } = context;
  const sources = new Map(supply.sources.map((source) => [source.node, source]));
  const boxes = supply.nodes.map((_, node) => {
    const name = wrapped(capitalised(nodeText(supply, node), words.tag), boxWidth);
    const when = sources.get(node)?.when;
    const state = when ? wrapped(`(${conditionText(when, context)})`, boxWidth + 4) : [];
    return { lines: [...name, ...state], shape: sources.has(node) ? ('source' as const) : ('box' as const) };
  });
  const arrows = supply.links.map(({ from, to, both, when }) => ({
    from,
    to,
    both,
    ...(when && { label: conditionText(when, context) }),
  }));
  return graphPicture('supply', description(supply, context), arrows, [
    { boxes, direction: 'LR' },
    { boxes, direction: 'TB' },
  ]);
}

function description(supply: Supply, context: Context): string {
  const { words } = context;
  const when = (condition: Supply['links'][number]['when']) => condition && conditionText(condition, context);
  const sources = supply.sources.map((source) =>
    words.picture.source(nodeText(supply, source.node), when(source.when)),
  );
  const links = supply.links.map((link) =>
    words.picture.link(nodeText(supply, link.from), nodeText(supply, link.to), when(link.when)),
  );
  return [`${supply.label}.`, ...sources, ...links].join(' ');
}
