/** The machines that a card is for, and what of the card is for each of them. */
import type { Card, Stage, Statement, Variant, Which } from '../../shared/card.ts';
import { bodiesOf } from './conditions.ts';
import { runEverything } from './interpreter.ts';
import { TooBig } from './readings.ts';
import { Sightings } from './verdicts.ts';

/** What is seen on any of the machines that the card is for; undefined where there are too many runs. */
export function seenOnAllMachines(
  card: Card,
  mostWorlds: number,
  follow: (card: Card, mostWorlds: number, sightings: Sightings) => Sightings = runEverything,
): Sightings | undefined {
  const all = new Sightings();
  try {
    for (const each of cardsByMachine(card)) follow(each, mostWorlds, all);
    return all;
  } catch (error) {
    if (error instanceof TooBig) return undefined;
    throw error;
  }
}

type Machine = ReadonlyMap<Variant, string>;

/** The card once for each machine on which it differs. */
export function cardsByMachine(card: Card): readonly Card[] {
  const restrictions = card.body.flatMap(restrictionsIn);
  const signature = (machine: Machine) => restrictions.map((which) => Number(fits(which, machine))).join('');
  const different = new Map(machinesOf(card).map((machine) => [signature(machine), machine]));
  return [...different.values()].map((machine) => ({
    ...card,
    body: card.body.flatMap((part) => partFor(part, machine)),
  }));
}

function machinesOf(card: Card): readonly Machine[] {
  let machines: Machine[] = [new Map()];
  for (const variant of card.equipment.variants) {
    machines = machines.flatMap((machine) => variant.values.map((value) => new Map([...machine, [variant, value]])));
  }
  return machines.filter((machine) => fits(card.applies, machine));
}

function fits(which: Which | undefined, machine: Machine): boolean {
  return which === undefined || which.parts.every((part) => part.values.includes(machine.get(part.variant) ?? ''));
}

function restrictionsIn(part: Stage | Statement): readonly Which[] {
  const own = 'only' in part && part.only ? [part.only] : [];
  return [...own, ...bodiesOf(part).flat().flatMap(restrictionsIn)];
}

function partFor<Part extends Stage | Statement>(part: Part, machine: Machine): readonly Part[] {
  if ('only' in part && !fits(part.only, machine)) return [];
  const inside = <Inner extends Stage | Statement>(list: readonly Inner[]) =>
    list.flatMap((each) => partFor(each, machine));
  switch (part.type) {
    case 'stage':
    case 'repeat':
    case 'do':
    case 'mend':
      return [{ ...part, body: inside(part.body) }];
    case 'if':
      return [{ ...part, body: inside(part.body), ...(part.otherwise && { otherwise: inside(part.otherwise) }) }];
    case 'together':
      return [{ ...part, lanes: part.lanes.map((lane) => ({ ...lane, body: inside(lane.body) })) }];
    case 'for-each':
      return [{ ...part, rounds: part.rounds.map(inside) }];
    case 'choose':
      return [{ ...part, ways: part.ways.map((way) => ({ ...way, body: inside(way.body) })) }];
    default:
      return [part];
  }
}
