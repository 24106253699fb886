/** The monitors that several questions share. */
import type { Flow, StopSite } from '../../flow/graph.ts';
import { touches } from '../meaning/transition-facts.ts';
import type { Monitor } from '../slicing/monitor.ts';
import type { Look } from '../slicing/question.ts';

/** 1 while no `set`, `run` or `wait` has happened yet. */
export const untouched: Monitor = {
  name: 'untouched',
  start: 1,
  stepsAt: ({ touching }) => touching,
  step: ({ move }) => (touches(move.happening) ? 0 : undefined),
};

/** 1 where the trigger was met after the last action: for triggers that look at readings, which are forgotten, and for hazards. */
export const wasMet: Monitor = { name: 'was met' };

/** The stop (plus one) that this path is on. */
export const stopSite: Monitor = {
  name: 'stop site',
  stepsAt: (index) => index.at('stopping'),
  step: ({ move: { happening } }) => (happening.type === 'stopping' ? happening.site + 1 : undefined),
};

/** As `stopSite`; in a stage for stops, the one where that itself stops. */
export const lastStopSite: Monitor = {
  name: stopSite.name,
  stepsAt: (index) => index.at('stopping', 'stopping-early'),
  step: ({ move: { happening } }) =>
    happening.type === 'stopping' || happening.type === 'stopping-early' ? happening.site + 1 : undefined,
};

/** A stop stands where it was written, or at the check that failed; undefined on other paths. */
export function siteOfStop(look: Look, { stopSites }: Flow): StopSite | undefined {
  const site = look.monitor(stopSite);
  return site ? stopSites[site - 1] : undefined;
}
