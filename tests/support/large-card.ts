/** A card of any size for measurements: valves turned, questions, readings and runs, all put back. */
import { numbers } from './numbers.ts';

const valves = 40;

/** `branches` of the steps ask something; the others set a valve. */
export function largeCard(steps: number, branches: number): string {
  return `${equipment()}\ncard large "A large card" {
  number "L-1" revision "A" crew one "One", two "Two"
  step by one set ignition pulled
  warning turning
${body(steps, branches)}
${numbers(valves)
  .map((n) => `  step by one takes 1 s set valve-${n} closed`)
  .join('\n')}
  step by one set ignition closed
}
`;
}

function equipment(): string {
  return `kind valve { closed "Close {}", open "Open {}" }
kind breaker { closed "Close {}", pulled "Pull {}" }
kind starter { off "Release {}", cranking "Hold {}" }
${numbers(valves)
  .map((n) => `item valve-${n} : valve "valve ${n}" normally closed`)
  .join('\n')}
item ignition : breaker "the ignition breaker" normally closed
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }
gauge oil "oil pressure" in psi { reads 0 to 100 by 1 limit normal 20 psi to 80 psi }
hazard turning "turning parts" while starter-1 cranking { warning "Turning parts can hurt. Keep away." }
rule no-spark "No ignition while it turns" { while starter-1 cranking require ignition pulled }
rule drained "Drain shut before it turns" { before starter-1 cranking require valve-1 closed }`;
}

function body(steps: number, branches: number): string {
  const every = branches === 0 ? Number.POSITIVE_INFINITY : Math.max(1, Math.floor(steps / branches));
  return numbers(steps)
    .map((n) =>
      n % every === 0
        ? branch(n, n / every)
        : `  step by one takes 10 s set valve-${1 + ((n * 7) % valves)} ${n % 3 ? 'open' : 'closed'}`,
    )
    .join('\n');
}

function branch(step: number, count: number): string {
  const valve = `valve-${1 + (step % valves)}`;
  switch (count % 4) {
    case 0:
      return `  if "Is ${step} wet?" { step by one takes 5 s set ${valve} open } else { step by two takes 5 s set ${valve} closed }`;
    case 1:
      return '  step by one takes 3 s read oil in normal else stop "Report the oil pressure."';
    case 2:
      return `  if ${valve} open { step by two takes 5 s set ${valve} closed }`;
    default:
      return '  step by one { set valve-1 closed run starter-1 cranking for 20 s wait 60 s }';
  }
}
