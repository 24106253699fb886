/** Draws the flow of a small card. */

import { reasonInWords } from '../../../server/findings/support/paths.ts';
import { buildFlow } from '../../../server/flow/build.ts';
import { configurations } from '../../../server/flow/configurations.ts';
import type { Flow, Happening, Move } from '../../../server/flow/graph.ts';
import type { Card, Together } from '../../../shared/card.ts';
import { mainFile, openText } from '../../support/check.ts';

const machine = `
kind valve { closed, open }
kind motor { stopped, running }
item drain, vent : valve normally closed
item motor-1 : motor normally stopped
gauge pressure "pressure" in psi { reads 0 to 100 limit normal 20 psi to 80 psi }
hazard heat "heat" while drain open { warning "Hot." }
variant unit 1 to 9
variant fit old, new
`;

/** The last card of a text, which uses a small machine. */
export function cardOf(body: string, { fields = '', before = '' } = {}): Card {
  const text = `${machine}${before}\ncard trial "A trial" { number "T-1" revision "A" crew one "One", two "Two" ${fields}\n${body}\n}`;
  const snapshot = openText(text).workspace.snapshot(mainFile);
  const misbound = snapshot?.bound.problems.filter(({ type }) => type !== 'unused') ?? [];
  const [slip] = [...(snapshot?.parsed.problems ?? []), ...misbound];
  const card = snapshot?.bound.cards.at(-1);
  if (!card || slip) throw new Error(JSON.stringify(slip));
  return card;
}

export function flowOf(body: string, before = ''): Flow {
  const card = cardOf(body, { before });
  return buildFlow(card, { includes: configurations(card)[0]?.includes ?? (() => true) });
}

/** As timing draws it: the path goes through the lane that is chosen. */
export function ledFlowOf(body: string, lead: (lanes: Together['lanes']) => number): Flow {
  return buildFlow(cardOf(body), { includes: () => true, lead });
}

/** Every way from the start to an end of the card, told as what happens on it. A way goes back by the same jump once. */
export function waysThrough(flow: Flow): string[] {
  const ways: string[] = [];
  const follow = (
    point: number,
    told: readonly string[],
    rounds: ReadonlyMap<number, number>,
    taken: readonly Move[],
  ) => {
    const out = flow.moves.filter((move) => move.from === point);
    if (out.length === 0) ways.push(told.join(', '));
    for (const move of out) {
      const after = roundsAfter(rounds, move);
      if (!after || (move.happening.type === 'forget' && taken.includes(move))) continue;
      const words = tell(move);
      follow(move.to, words === '' ? told : [...told, words], after, [...taken, move]);
    }
  };
  follow(flow.start, [], new Map(), []);
  return ways;
}

/** Undefined where the loop's count does not let the path go this way. */
function roundsAfter(
  rounds: ReadonlyMap<number, number>,
  { happening }: Move,
): ReadonlyMap<number, number> | undefined {
  if (happening.type === 'enter-loop') return new Map(rounds).set(happening.loop, 1);
  if (happening.type !== 'again' && happening.type !== 'leave-loop') return rounds;
  const done = rounds.get(happening.loop) ?? 0;
  if (happening.type === 'again')
    return done < happening.times ? new Map(rounds).set(happening.loop, done + 1) : undefined;
  return happening.times === undefined || done >= happening.times ? rounds : undefined;
}

function tell({ happening, reason, time }: Move): string {
  const least = time.least / 1e6;
  const most = time.most === Number.POSITIVE_INFINITY ? 'any' : time.most / 1e6;
  const lasts = time.most === 0 ? '' : ` ${least === most ? least : `${least} to ${most}`} s`;
  return `${tellHappening(happening)}${reason ? ` (${reasonInWords(reason)})` : ''}${lasts}`.trim();
}

function tellHappening(happening: Happening): string {
  switch (happening.type) {
    case 'pass':
    case 'enter-loop':
    case 'leave-loop':
      return '';
    case 'set':
    case 'begin':
    case 'end':
      return `${happening.type} ${happening.item.name} ${happening.item.kind.states[happening.state]?.name}`;
    case 'assume':
      return happening.holds ? 'yes' : 'no';
    case 'moment':
      return happening.cause;
    case 'admonish':
      return `${happening.level} ${happening.hazard.name}`;
    default:
      return happening.type;
  }
}
