/** What a writer changes in each faulty sample, so that nothing is left to find: texts and what takes their place. */
type Mend = readonly (readonly [was: string, is: string])[];

export const mends: Readonly<Record<string, Mend>> = {
  'admonitions.card': [
    ['  step set steam-valve open', '  warning steam\n  step set steam-valve open'],
    ['  step set hot-plate on\n  caution heat', '  caution heat\n  step set hot-plate on'],
  ],
  'back-feed.card': [
    ['  step set isolator locked', '  step set isolator locked\n  step set brake-fuse removed'],
    ['  step set isolator closed', '  step set brake-fuse fitted\n  step set isolator closed'],
  ],
  'branch-around.card': [
    ['  if "Is', '  step set pump stopped\n  step set bleed open\n  step wait 2 min\n  if "Is'],
    [
      '    step set pump stopped\n    step set bleed open\n    step wait 2 min\n  } else',
      '    step "Report it."\n  } else',
    ],
    ['ensure bleed', 'set bleed'],
    ['ensure pump', 'set pump'],
  ],
  'breaker-left-pulled.card': [['    finish', '    step set heater-breaker closed\n    finish']],
  'crew.card': [
    ['by diver', 'by driver'],
    ['step "Connect', 'step by walker "Connect'],
  ],
  'fields.card': [
    ['card sweep "Sweep the hangar" {', 'card sweep "Sweep the hangar" {\n  number "WF-19"\n  revision "A"'],
    ['"Look at the lights" {\n  number "WF-20"', '"Look at the lights" {\n  number "WF-24"'],
    [' {\n    accept safety.left-changed because "The lights stay on at night."\n  }', ''],
  ],
  'flow.card': [
    ['level above 40 %', 'level at least 30 %'],
    ['level at least 45 %', 'level above 50 %'],
    ['again: ', ''],
    ['  go to again\n', ''],
  ],
  'hand-over.card': [['step set isolator open', 'step set isolator locked']],
  'limits.card': [
    ['170 psi to 220 psi', '180 psi to 220 psi'],
    ['250 psi', '{strut.service}'],
    ['30 lbf.in to 40 lbf.in', 'in fitted'],
    ['at least 190 psi', 'at least 195 psi'],
    ['1600 kPa', '1500 kPa'],
  ],
  'names.card': [
    ['item drain-valve : valve "the second drain valve" normally closed\n', ''],
    ['procedure round-and-round() "Go round" {\n  do round-and-round\n}\n', ''],
    ['drian-valve', 'drain-valve'],
    ['shut', 'closed'],
    ['refil\n', 'refill\n'],
    ['"Fill the tank."', '"Fill the tank."\n  do flush'],
  ],
  'noise-dose.card': [['120 min to 150 min', '60 min to 75 min']],
  'prose.card': [
    [
      '  note "The drain is stiff in the cold."\n  warning "Fuel burns. Connect the ground wire."',
      '  warning "Fuel burns."\n  note "The drain is stiff in the cold."\n  step "Connect the ground wire."',
    ],
    ['the drain and push the drain pin', 'the drain, and at the same time push the drain pin'],
    ['sufficient fuel', '0.5 L of fuel'],
    [
      ' until you see whether any water has gathered at the bottom of the fuel that you took.',
      '. Water gathers at the bottom.',
    ],
    ['Remove the jar and close the cap."', 'Remove the jar."\n  step "Close the cap."'],
  ],
  'questions.card': [
    ['if feed-valve open', 'if "Does the pipe drip?"'],
    ['  step check feed-valve closed\n', ''],
  ],
  'safety-order.card': [
    [
      '  warning noise\n  repeat',
      '  danger turning\n  warning noise\n  step set ear-defenders on\n  step set fire-detection passed\n  repeat',
    ],
    ['    danger turning\n    step set fire-detection passed\n', ''],
  ],
  'second-engine.card': [
    ['  step set bus-tie open\n', ''],
    ['  step set bus-tie closed\n', ''],
  ],
  'seen-and-set.card': [
    ['set pump-lamp', 'check pump-lamp'],
    ['set drain-1', 'check drain-1'],
  ],
  'slips.card': [
    ['set tap\n', 'set tap open\n'],
    ['run.\n', 'run."\n'],
    ['wait\n', 'wait 60 s\n'],
  ],
  'starter-too-soon.card': [
    ['at most 4 times until', 'at most 3 times until'],
    ['wait 45 s', 'wait 60 s'],
    ['for 40 s', 'for 30 s'],
    ['step set starter-1 cranking\n  step "Look', 'step run starter-1 cranking for 20 s\n  step "Look'],
    ['smoke."\n  step set starter-1 off', 'smoke."'],
    [
      '  step takes 20 s set starter-1 cranking\n  step takes 20 s set starter-1 off',
      '  step run starter-1 cranking for 20 s',
    ],
  ],
  'stops.card': [
    [
      '  step set saw stopped\n  step set guard fitted\n}',
      '  step set saw stopped\n  step set guard fitted\n  stage "Leave the saw safe" when stopped {\n    step set saw stopped\n    step set guard fitted\n  }\n}',
    ],
  ],
  'two-hands.card': [
    [
      '      step "Look for fuel under the wing."\n      step set cross-valve closed',
      '      step "Look for fuel under the wing."',
    ],
  ],
  'units.card': [
    ['at most 120 psi', 'at most 130 degC'],
    ['at least 120 dgC', 'at least 120 degC'],
    ['123 degC', '120 degC'],
    ['130 degC to 120 degC', '120 degC to 130 degC'],
    ['below 310 degC', 'below 130 degC'],
  ],
};
