/**
 * Sentences of steps, each with the writing rules that a careful reader says it breaks. They are our own, written after the manner of
 * public maintenance manuals, and were labelled before any was run; “course” came later, with its first finds in sight.
 */
export type Rule =
  | 'long-sentence'
  | 'several-actions'
  | 'vague'
  | 'condition-last'
  | 'imperative'
  | 'course'
  | 'noun-cluster'
  | 'word';

export const labelled: readonly (readonly [sentence: string, ...breaks: Rule[]])[] = [
  ['Remove the four bolts that hold the cover.'],
  ['Remove the four bolts and lift the cover off.', 'several-actions'],
  ['Remove the bolts, washers and nuts.'],
  ['Discard the gasket and the split pins.'],
  ['Clean the mating surfaces with a lint-free cloth.'],
  ['Clean the mating surfaces and apply a thin film of grease.', 'several-actions'],
  ['Inspect the hose for cracks, cuts and wear.'],
  ['Inspect the hose and replace it if it is cracked.', 'several-actions', 'condition-last'],
  ['Replace the hose if it is cracked.', 'condition-last'],
  ['If the hose is cracked, replace it.'],
  ['If the hose is cracked, drain the tank and replace the hose.', 'several-actions'],
  ['Tighten the nut as required.', 'vague'],
  ['Tighten the nut to the torque in table 3.'],
  ['Make sure that the lever is properly seated.', 'vague'],
  ['Make sure that the lever is seated.'],
  ['Add oil as necessary.', 'vague'],
  ['Add oil until the glass is full.'],
  ['Run the engine for approximately five minutes.', 'vague'],
  ['Let the engine idle for five minutes.'],
  ['Stop the engine when the temperature stops rising.', 'condition-last'],
  ['When the temperature stops rising, stop the engine.'],
  ['Call the supervisor when the work is finished.', 'condition-last'],
  ['Tell the supervisor when the work is finished.'],
  ['Ask whether the supply is off.'],
  ['Check if the lamp is lit.'],
  ['Record the pressure when the pump stops.'],
  ['Note which bolts are longer.'],
  ['Hold the shaft while you tighten the nut.'],
  ['Hold the shaft and tighten the nut at the same time.'],
  ['Hold the shaft and tighten the nut.', 'several-actions'],
  ['Open the cabinet, pull the tray and disconnect the ribbon cable.', 'several-actions'],
  ['Press the button, then release it.', 'several-actions'],
  ['Press and hold the button.'],
  ['Push and turn the cap.', 'several-actions'],
  ['Turn the cap anticlockwise by a quarter of a turn.'],
  ['Wipe the lens periodically.', 'vague'],
  ['Wipe the lens every 30 minutes.', 'course'],
  ['Use a suitable container to catch the oil.', 'vague'],
  ['Use a container of 5 L to catch the oil.'],
  ['Support the motor with adequate blocking before the mounts are removed.', 'vague'],
  ['Put the plug in its bag and the bag on its hook.'],
  ['The drain and the vent are on the left of the tank.'],
  ['The valve opens when the pressure is above 3 bar.'],
  ['All cables and hoses have tags.'],
  ['Do not turn the shaft by hand unless the brake is released.', 'condition-last'],
  ['Unless the brake is released, do not turn the shaft.'],
  ['Turn the knob even if it is stiff.'],
  ['Leave the cap off if you go on to card 12.', 'condition-last'],
  ['Find out why the breaker tripped.'],
  ['Look what the gauge shows when the lever is moved.'],
  ['Write down what to do if it trips again.'],
  ['Read the plate and the label beside it.'],
  ['Align the mark on the gear with the mark on the housing.'],
  ['Align the mark on the gear with the mark on the housing, and push the gear onto the shaft.', 'several-actions'],
  [
    'Remove the two long screws from the upper edge and the six short ones from the lower edge of the panel behind the seat.',
    'long-sentence',
  ],
  [
    'Before anybody enters the tank, make sure that the man at the hatch has a rope, a radio, a lamp and a list of names.',
    'long-sentence',
  ],
  ['Lower the load slowly onto the blocks in front of the wheel.'],
  ['Cut the cable ties and pull the harness clear of the bracket.', 'several-actions'],
  ['Cut a strip of 20 mm from the sheet.'],
  ['Install new seals.'],
  ['Install new seals and fit the cover.', 'several-actions'],
  ['Drain the sump completely.'],
  ['Drain the sump if the oil looks like milk.', 'condition-last'],
  ['Reset the counter, and record its old value.', 'several-actions'],
  ['Lubricate the hinge regularly.', 'vague'],
  ['Work from the middle of the cover to its edges.'],
];
