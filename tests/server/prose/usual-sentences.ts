/** Sentences as procedures have them, written for this test, with what each says of the equipment below. */
export const equipment = `
kind element { fitted "Fit {}" or "Install {}" or "Put in {}" or "Refit {}", removed "Remove {}" or "Take out {}" }
kind screw seen { tight, loose }
kind liner { old "Leave {}", fresh "Fit a new {}" }
item isolator : isolator "the pump isolator" at "bay 2" normally open
item pump : pump "the ramp pump" at "bay 2" normally stopped
item boost : pump "the left boost pump" at "tank roof" normally stopped
item cover : cover "the filter cover" normally fitted
item element : element "the return filter" normally fitted
item port-pin, starboard-pin "the starboard ramp pin" : pin "the port ramp pin" normally fitted
item selector : selector "the ramp selector" normally off
item drain : drain "the sump drain" normally closed
item inlet : valve "the inlet valve" at "pump room" normally open
item return-valve : valve "the return valve" normally closed
item mains : breaker "the mains breaker" normally closed
item brake : brake "the parking brake" normally set
item lamp : lamp "the ramp lamp"
item liner : liner "the rubber liner"
gauge oil "oil pressure" in bar { reads 0 to 80 by 1 }
gauge accumulator "accumulator pressure" in bar { reads 0 to 200 by 1 }
gauge heat "oil temperature" in degC { reads 0 to 120 by 1 }
`;

/** What the proof should have seen, by the action that says it. */
export const saying: readonly (readonly [string, string])[] = [
  ['Remove the filter cover.', 'set cover removed'],
  ['Take off the cover.', 'set cover removed'],
  ['Take the filter cover off.', 'set cover removed'],
  ['Refit the filter cover.', 'set cover fitted'],
  ['Put back the cover.', 'set cover fitted'],
  ['Put the cover in place.', 'set cover fitted'],
  ['Start the ramp pump.', 'set pump running'],
  ['Now switch on the ramp pump.', 'set pump running'],
  ['Switch the ramp pump on.', 'set pump running'],
  ['Slowly open the inlet valve.', 'set inlet open'],
  ['Shut the inlet valve in the pump room.', 'set inlet closed'],
  ['Close the pump room valve.', 'set inlet closed'],
  ['Close the pump isolator.', 'set isolator closed'],
  ['Lock out the isolator.', 'set isolator locked'],
  ['Open and lock the pump isolator.', 'set isolator locked'],
  ['Read the oil pressure. It must be at most 50 bar.', 'read oil at most 50 bar'],
  ['Read the oil pressure: it must be below 50 bar.', 'read oil below 50 bar'],
  ['Check that the oil pressure is above 2 bar.', 'read oil above 2 bar'],
  ['The oil pressure must be between 20 and 50 bar.', 'read oil 20 bar to 50 bar'],
  ['Make sure the accumulator pressure is no more than 5 bar.', 'read accumulator at most 5 bar'],
  ['Note the oil temperature.', 'read heat'],
  ['Read the oil pressure: 0.0 bar, at most 0.5 bar.', 'read oil at most 0.5 bar'],
  ['Wait until the oil temperature is cooler than 45 degC.', 'wait until heat below 45 degC'],
  ['The oil pressure must not be above 50 bar.', 'read oil at most 50 bar'],
  ['The oil pressure must not exceed 50 bar.', 'read oil at most 50 bar'],
  ['Check that the oil pressure is not below 5 bar.', 'read oil at least 5 bar'],
  ['The oil pressure may not be higher than 50 bar.', 'read oil at most 50 bar'],
  ['Read the oil temperature. It must be not lower than 15 degC.', 'read heat at least 15 degC'],
  ['Run the ramp pump for 3 minutes.', 'run pump running for 3 min'],
  ['Let the ramp pump run for 30 s.', 'run pump running for 30 s'],
  ['Start the left boost pump for two minutes.', 'run boost running for 2 min'],
  ['Read the accumulator pressure. It must be below 5 bar.', 'read accumulator below 5 bar'],
  ['Fit the port ramp pin', 'set port-pin fitted'],
  ['Pull out the starboard pin.', 'set starboard-pin away'],
  ['Remove the port and starboard ramp pins.', 'set port-pin away, starboard-pin away'],
  ['Take out the return filter and put it in the tray.', 'set element removed'],
  ['Set selector to off', 'set selector off'],
  ['Turn the ramp selector to AUTO.', 'set selector auto'],
  ['Turn the ramp selector on panel 2 to AUTO.', 'set selector auto'],
  ['Turn the ramp selector on panel 2 to OFF, and wait.', 'set selector off'],
  ['Put the ramp selector on the left panel to the OFF position.', 'set selector off'],
  ['Make sure that the inlet valve is closed.', 'ensure inlet closed'],
  ['The pump isolator must be closed.', 'ensure isolator closed'],
  ['Check that the ramp lamp is off.', 'check lamp off'],
  ['Verify that the parking brake is set.', 'check brake set'],
  ['Pull and tag the mains breaker.', 'set mains pulled'],
  ['Release the parking brake.', 'set brake released'],
  ['Wait 5 minutes.', 'wait 5 min'],
  [
    'Wait until the oil temperature is below 40 degC, for 20 min at most.',
    'wait until heat below 40 degC within 20 min',
  ],
  ['If the lamp is on, stop the ramp pump.', 'set pump stopped'],
  ['Open the sump drain until the sump is dry.', 'set drain open'],
  ['Bring the oil pressure to 30 bar within 2 min.', 'bring oil exactly 30 bar within 2 min'],
];

/** For people, or about what the equipment does not name. */
export const forPeople: readonly string[] = [
  'Agree on the hand signals.',
  'Padlocks into the locker, old liner into the scrap bin.',
  'Tell the control room.',
  'Tell the control room to start the ramp pump.',
  'Ask the control room whether the pump may run.',
  'Look at the shaft sleeve.',
  'Look at the filter cover for cracks.',
  'Look for oil under the ramp pump.',
  'Wipe the filter cover with a clean cloth.',
  'Clean the seat of the inlet valve.',
  'Write the reading in the log book.',
  'Put on gloves.',
  'Open the manual at page 12.',
  'Close the log book.',
  'Stop the work when lightning is near.',
  'Start the stop watch.',
  'Remove the four screws of the cover plate.',
  'Do not start the ramp pump.',
  'Never open the inlet valve by hand.',
  'Stand clear of the ramp.',
  'Keep everyone out of the marked area.',
  'Closing the drain takes two people.',
  'The pump starts by itself.',
  'Hang a notice on the ramp pump.',
  'Show the return filter to the inspector.',
  'Lubricate the port ramp pin.',
  'Count the tools.',
  'Turn the shaft by hand.',
  'Hold the lamp over the sump.',
  'Set the table for the washed parts.',
  'Fit a new seal to the filter cover.',
  'Measure the bush.',
  'Listen to the left boost pump.',
  'Take a photograph of the pump isolator.',
  'Report the oil pressure to the control room.',
  'Read the safety sheet of the cleaning fluid.',
  'Check the inlet valve for leaks.',
  'Open the spare parts box.',
  'Remove the filter cover plate label.',
  'Lock the workshop.',
  'Wait for the crane.',
  'Sign the card.',
];
