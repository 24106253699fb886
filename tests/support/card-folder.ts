/** Folders of cards of any number, which share an equipment file: some with a finding, some with a fix, some with an acceptance. */
import { numbers } from './numbers.ts';

const valves = 12;

export const plant = `kind valve { closed "Close {}", open "Open {}" }
gauge pressure "wash pressure" in psi {
  reads 0 to 100 by 1
  limit spray 40 psi to 55 psi
}
item pump : switch "the pump" normally off
${numbers(valves)
  .map((n) => `item valve-${n} : valve "valve ${n}" normally closed`)
  .join('\n')}
rule dry "The pump runs dry." { while pump on require valve-1 open }
`;

/** The card with this number: 40 steps, or as many as are asked for. */
export function folderCard(n: number, steps = 40): string {
  const pairs = Math.floor((steps - 6) / 2);
  const turns = numbers(pairs).map((turn) => {
    const valve = 2 + ((n + turn) % (valves - 1));
    return `  step "Turn ${turn} of ${n}." set valve-${valve} open\n  step set valve-${valve} closed`;
  });
  return `use "plant.card"
card c${n} "Card ${n}" {
  number "C-${n % 50 === 7 ? 1 : n}"
  revision "A"
  crew mechanic "Mechanic"
  step set valve-1 open
  step set pump on
  step read pressure in spray
  if pressure above 50 psi { step "Wait until it settles." wait 30 s }
${turns.join('\n')}
  step set pump off
  ${n % 5 === 0 ? (n % 10 === 0 ? 'step "Leave it." accept safety.left-changed because "The next card needs it open."' : '') : 'step set valve-1 closed'}
}
`;
}

/** The texts of such a folder by their names. */
export function cardFolder(count: number, steps?: number): Readonly<Record<string, string>> {
  return Object.fromEntries([
    ['plant.card', plant],
    ...numbers(count).map((n): [string, string] => [`cards-${n}.card`, folderCard(n, steps)]),
  ]);
}
