/** Which nodes are fed, by rounds: nothing is fed at first, and each round looks at the conditions in the light of the round before. */
import type { Condition, Supply } from '../../shared/card.ts';

export type Fed = readonly (readonly boolean[])[];

type ConditionHolds = (condition: Condition, fed: Fed) => boolean;

export function fedNodes(supplies: readonly Supply[], holds: ConditionHolds): Fed {
  let fed: Fed = supplies.map((supply) => supply.nodes.map(() => false));
  // A supply that feeds what cuts it never settles; it is then left as it stands after as many rounds as there are nodes and more.
  const rounds = 2 + fed.flat().length;
  for (let round = 0; round < rounds; round++) {
    const next = supplies.map((supply) =>
      fedOnce(supply, (condition) => condition === undefined || holds(condition, fed)),
    );
    if (JSON.stringify(next) === JSON.stringify(fed)) return fed;
    fed = next;
  }
  return fed;
}

function fedOnce(supply: Supply, on: (condition: Condition | undefined) => boolean): readonly boolean[] {
  const fed = supply.nodes.map((_, node) => supply.sources.some((source) => source.node === node && on(source.when)));
  const open = supply.links.filter((link) => on(link.when));
  const flow = (from: number, to: number) => {
    const reaches = fed[from] === true && fed[to] !== true;
    if (reaches) fed[to] = true;
    return reaches;
  };
  for (let changed = true; changed; ) {
    changed = false;
    for (const link of open) {
      if (flow(link.from, link.to)) changed = true;
      if (link.both && flow(link.to, link.from)) changed = true;
    }
  }
  return fed;
}
