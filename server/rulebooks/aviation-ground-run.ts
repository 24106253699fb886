import text from './aviation-ground-run.card';
import type { Rulebook } from './rulebook.ts';

const good = `use "std:aviation-ground-run"

item engine   : ground-engine    "the engine"             normally stopped
item igniters : ignition-breaker "the ignition breakers"  normally closed
item fuel     : fuel-lever       "the fuel lever"         normally cutoff

card motor-it "Motor and run the engine" {
  number   "E-1"
  revision "A" on 2026-03-02
  crew     cockpit "Cockpit", ground "Ground"

  stage "Make ready" {
    step by ground   set run-chocks fitted
    step by ground   set run-fire-guard manned
    step by ground   set run-observer manned
    step by ground   set run-danger clear
    step by ground   set run-ears on
    step by cockpit  set run-fire-test passed
  }
  stage "Motor it" {
    step by cockpit  set igniters pulled
    step by cockpit  run engine motoring for 20 s
    step by cockpit  set igniters closed
  }
  stage "Run it" {
    step by cockpit  set fuel run
    step by cockpit  set engine running
    step by cockpit  "Look at the oil pressure." {
      check "Is the oil pressure green?"
    }
    step by cockpit  set engine stopped
    step by cockpit  set fuel cutoff
  }
  stage "Make it safe" when stopped {
    step by cockpit  set engine stopped
    step by cockpit  set fuel cutoff
  }
}
`;

const without = (line: string): readonly [string, string] => [`    step by ${line}\n`, ''];
const stop = '    step by cockpit  set engine stopped\n';

export const aviationGroundRun: Rulebook = {
  name: 'std:aviation-ground-run',
  text,
  about:
    'What any run of an aircraft engine on the ground needs: chocks, a fire test and a fire guard, a clear area, somebody who watches, hearing protection, no ignition and no fuel while it is motored, and all put back. This is common practice without a published source; the manual of the aircraft comes first. The time limits of a starter are duties of that item.',
  good,
  slips: {
    'run-chocks-in': [without('ground   set run-chocks fitted')],
    'run-fire-test-first': [without('cockpit  set run-fire-test passed')],
    'run-fire-guard-there': [without('ground   set run-fire-guard manned')],
    'run-area-clear': [without('ground   set run-danger clear')],
    'run-observer-there': [without('ground   set run-observer manned')],
    'run-ears-on': [without('ground   set run-ears on')],
    'run-no-spark': [without('cockpit  set igniters pulled'), without('cockpit  set igniters closed')],
    'run-no-fuel': [
      without('cockpit  set fuel run'),
      [
        '    step by cockpit  set igniters pulled\n',
        '    step by cockpit  set igniters pulled\n    step by cockpit  set fuel run\n',
      ],
    ],
    'run-stopped': [[stop, '']],
    'run-put-back': [without('cockpit  set igniters closed')],
    'run-stop-safe': [
      [`  stage "Make it safe" when stopped {\n${stop}    step by cockpit  set fuel cutoff\n  }\n`, ''],
    ],
  },
};
