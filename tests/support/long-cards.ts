/** Texts that take long to read, to bind or to prove, each in a way of its own. */
import { largeCard } from './large-card.ts';
import { numbers } from './numbers.ts';

const card = (steps: string, before = '') => `${before}
card c "C" {
  number "1" revision "A"
  crew a "A", b "B", c "C", d "D", e "E", f "F"
${steps}
}
`;

const names = 'a'.repeat(1_000_000);
const lanes = ['a', 'b', 'c', 'd', 'e', 'f'];
const starters = lanes.map(
  (n) => `item s-${n} : starter "starter ${n}" normally off { duty cranking at most 30 s, then rest 60 s }`,
);

export const longCards = {
  '64 variants': card(
    numbers(64)
      .map((n) => `  step "Look." only v${n} old-${n}`)
      .join('\n'),
    numbers(64)
      .map((n) => `variant v${n} old-${n}, new-${n}`)
      .join('\n'),
  ),
  'misspelt names of a megabyte': card(`  step set ${names}x open`, `item ${names} : valve "long"`),
  'a text of 10 MB': card(`  step "${'Look at the hose. '.repeat(580_000)}"`),
  '10,000 steps': largeCard(10_000, 1000),
  'six lanes with runs': card(
    `  together {\n${lanes
      .map((n) => `    by ${n} { ${`step run s-${n} cranking for 20 s step wait 60 s `.repeat(6)}}`)
      .join('\n')}\n  }`,
    `kind starter { off "Release {}", cranking "Hold {}" }\n${starters.join('\n')}`,
  ),
};
