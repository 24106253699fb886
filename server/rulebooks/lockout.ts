import text from './lockout.card';
import type { Rulebook } from './rulebook.ts';

/** A press with a back-feed and an accumulator: opened, mended, closed and started again. */
const good = `use "std:lockout"

item press       : lockout-machine "the press"                     normally running
item main-switch : energy-isolator "the main switch of the press"  normally on
item heater-plug : energy-isolator "the plug of the heater"        normally on
item accumulator : stored-energy   "the accumulator"               normally stored
item ram         : danger-zone     "the ram of the press"          normally guarded
item fitter-lock : personal-lock   "the lock of the fitter"        normally off
item mate-lock   : personal-lock   "the lock of the mate"          normally off

supply energy "energy" {
  source mains
  source heater-line
  source accumulator when accumulator stored
  link mains -> drive       when main-switch on
  link heater-line -> drive when heater-plug on
  link drive -> ram
  link accumulator -> ram
}

card mend-ram "Mend the ram of the press" {
  number   "P-3"
  revision "A" on 2026-03-02
  purpose  "For changing the seal of the ram."
  crew     fitter "Fitter" qualified "Authorised to lock and tag", mate "Mate"

  stage "Make it dead" {
    step by fitter  set lockout-preparation done
    step by fitter  set press shut-down
    step by fitter  set main-switch off
    step by fitter  set heater-plug off
    step by fitter  set main-switch locked
    step by fitter  set heater-plug locked
    step by fitter  set fitter-lock on
    step by mate    set mate-lock on
    step by fitter  set accumulator relieved
    step by fitter  set ram proved
  }
  stage "Mend it" {
    step by fitter  set ram open
    step by fitter  "Change the seal of the ram."
    step by fitter  set ram cleared
    step by fitter  set ram guarded
    step by mate    set mate-lock off
    step by fitter  set fitter-lock off
  }
  stage "Give it back" {
    step by mate    set everybody-clear done
    step by fitter  set main-switch unlocked
    step by fitter  set heater-plug unlocked
    step by mate    set lockout-notice done
    step by fitter  set heater-plug on
    step by fitter  set main-switch on
    step by fitter  set accumulator stored
    step by fitter  set press running
  }
}
`;

const plugOff = '    step by fitter  set heater-plug off\n';
const relieved = '    step by fitter  set accumulator relieved\n';
const opened = '    step by fitter  set ram open\n';
const cleared = '    step by fitter  set ram cleared\n';
const closed = '    step by fitter  set ram guarded\n';
const mateOn = '    step by mate    set mate-lock on\n';
const mateOff = '    step by mate    set mate-lock off\n';
const clear = '    step by mate    set everybody-clear done\n';
const unlocked = '    step by fitter  set main-switch unlocked\n';
const told = '    step by mate    set lockout-notice done\n';
const plugOn = '    step by fitter  set heater-plug on\n';
const plugUnlocked = '    step by fitter  set heater-plug unlocked\n';

export const lockout: Rulebook = {
  name: 'std:lockout',
  text,
  about:
    'Locking and tagging a machine for work on it, after 29 CFR 1910.147: the six steps in their order, no energy left on any way of the supply, and the way back. Declare what cuts the energy, what keeps some, and where hands go, and link supplies to there. It speaks of one lockout a card. Where several work under it, declare each own lock as a personal-lock. It does not tell whether a tag may stand for a lock.',
  good,
  slips: {
    'prepare-first': [['    step by fitter  set lockout-preparation done\n', '']],
    'shut-down-first': [['    step by fitter  set press shut-down\n', '']],
    'off-before-lock': [[plugOff, '']],
    'lock-before-relief': [
      [relieved, ''],
      [plugOff, plugOff + relieved],
    ],
    'no-energy': [
      [relieved, ''],
      [opened, relieved + opened],
    ],
    'locked-while-open': [[relieved, relieved + plugOff]],
    'prove-first': [['    step by fitter  set ram proved\n', '']],
    'own-locks': [
      [mateOn, ''],
      [opened, opened + mateOn],
    ],
    'own-locks-off': [
      [mateOff, ''],
      [unlocked, unlocked + mateOff],
    ],
    'stays-dead': [[opened, `${opened}    step by fitter  set accumulator stored\n`]],
    'inspect-first': [[cleared, '']],
    'close-before-unlock': [
      [clear, clear + cleared],
      [unlocked, unlocked + closed],
    ],
    'clear-first': [[clear, '']],
    'clear-when-closed': [
      [clear, ''],
      [closed, clear + closed],
    ],
    'unlock-first': [
      [plugOn, ''],
      [plugUnlocked, plugOn],
    ],
    'tell-before-start': [[told, '']],
    'tell-after-locks': [
      [told, ''],
      [unlocked, told + unlocked],
    ],
  },
  findings: ['lockout.other-hand', 'lockout.authorised', 'lockout.purpose'],
};
