/** The path that is timed: each `together` that it is in says which of its lanes that goes through. */
import type { Track } from '../../flow/graph.ts';
import { longest, noTicks, sum, type Ticks } from '../../flow/time.ts';
import { type Beside, type Hands, united } from '../exploring/hands.ts';

/** The path that is timed is in this lane. */
export function isLed(hands: Hands, track: Track): boolean {
  let at: Hands | undefined = hands;
  for (const index of track) {
    if (at?.within?.led !== index) return false;
    at = at.within.lanes[index];
  }
  return true;
}

/** Each `together` around the path that is timed, from the one at the track inward. */
export function ledInward(hands: Hands, track: Track): Beside[] {
  const found: Beside[] = [];
  const first = track.reduce<Hands | undefined>((at, index) => at?.within?.lanes[index], hands);
  for (let at = first?.within; at; at = at.lanes[at.led]?.within) found.push(at);
  return found;
}

/** The lanes to go down to the path that is timed. */
export function ledTrack(hands: Hands): Track {
  return ledInward(hands, []).map(({ led }) => led);
}

/** For each `together` around it, outermost first, how long the path that is timed has been in it. */
export function ledTimes(hands: Hands): Ticks[] {
  const led = ledInward(hands, []).flatMap(({ lanes, led }) => lanes[led] ?? []);
  return led.map((_, depth) => led.slice(depth).reduce<Ticks>(sum, noTicks));
}

/** How far the lanes are that are not timed. */
export function reachedBeside({ led, lanes }: Beside): Ticks {
  return longest(lanes.filter((_, index) => index !== led).map(united));
}
