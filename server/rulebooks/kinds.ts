/** `std:kinds`: the kinds that every machine has. They are in scope in every file; a kind of the same name in a file stands before them. */
export const kinds = `// Things that open and shut.
kind valve {
  closed "Close {}" or "Shut {}" or "Shut off {}" or "Turn off {}",
  open "Open {}" or "Turn on {}"
}
kind door { closed "Close {}" or "Shut {}", open "Open {}" }
kind panel {
  fitted "Fit {}" or "Install {}" or "Refit {}" or "Put on {}" or "Put back {}" or "Put {} in place",
  removed "Remove {}" or "Take off {}" or "Take out {}" or "Take away {}"
}
kind cover {
  fitted "Fit {}" or "Install {}" or "Refit {}" or "Put on {}" or "Put back {}" or "Put {} in place",
  removed "Remove {}" or "Take off {}" or "Take away {}"
}
kind cap {
  fitted "Fit {}" or "Install {}" or "Refit {}" or "Put on {}" or "Put back {}" or "Screw on {}",
  removed "Remove {}" or "Take off {}" or "Unscrew {}"
}
kind plug {
  connected "Connect {}" or "Plug in {}" or "Reconnect {}" or "Fit {}" or "Install {}",
  apart "Disconnect {}" or "Unplug {}" or "Pull out {}" or "Remove {}"
}
kind hose {
  connected "Connect {}" or "Reconnect {}" or "Attach {}" or "Couple {}",
  apart "Disconnect {}" or "Detach {}" or "Uncouple {}" or "Remove {}"
}
kind drain { closed "Close {}" or "Shut {}", open "Open {}" }
kind gate  { closed "Close {}" or "Shut {}", open "Open {}" }
kind guard {
  fitted "Fit {}" or "Install {}" or "Refit {}" or "Put on {}" or "Put back {}" or "Put {} in place",
  removed "Remove {}" or "Take off {}" or "Take away {}"
}
kind latch { locked "Lock {}" or "Fasten {}" or "Engage {}", released "Release {}" or "Unlock {}" or "Unfasten {}" }

// Things that carry or cut power.
kind breaker {
  closed "Close {}" or "Push in {}" or "Reset {}" or "Switch on {}",
  open "Open {}" or "Trip {}" or "Switch off {}",
  pulled "Pull and tag {}" or "Pull {}"
}
kind switch {
  off printed "OFF" "Set {} to OFF" or "Switch off {}" or "Turn off {}" or "Turn {} to OFF" or "Put {} to OFF",
  on printed "ON" "Set {} to ON" or "Switch on {}" or "Turn on {}" or "Turn {} to ON" or "Put {} to ON"
}
kind selector {
  off printed "OFF" "Set {} to OFF" or "Turn {} to OFF" or "Put {} to OFF" or "Switch {} to OFF",
  auto printed "AUTO" "Set {} to AUTO" or "Turn {} to AUTO" or "Put {} to AUTO" or "Switch {} to AUTO",
  on printed "ON" "Set {} to ON" or "Turn {} to ON" or "Put {} to ON" or "Switch {} to ON"
}
kind button { released "Release {}" or "Let go of {}", pressed "Press and hold {}" or "Press {}" or "Push {}" }
kind isolator {
  open "Open {}" or "Switch off {}",
  closed "Close {}" or "Shut {}" or "Switch on {}",
  locked "Open and lock {}" or "Lock out {}" or "Lock {} open" or "Lock open {}" or "Lock off {}"
}
kind contactor { open "Open {}", closed "Close {}" or "Shut {}" }
kind fuse {
  fitted "Fit {}" or "Insert {}" or "Install {}" or "Put in {}" or "Put back {}" or "Refit {}",
  removed "Remove {}" or "Take out {}" or "Pull {}" or "Pull out {}"
}
kind battery {
  connected "Connect {}" or "Reconnect {}",
  apart "Disconnect {}"
}
kind key {
  away "Remove {}" or "Take out {}" or "Pull out {}" or "Withdraw {}",
  fitted "Insert {}" or "Put in {}" or "Put {} in place" or "Fit {}"
}

// Things that hold something where it is.
kind chock {
  away "Remove {}" or "Take away {}" or "Pull away {}",
  fitted "Put {} in place" or "Place {}" or "Fit {}" or "Set {}"
}
kind pin {
  away "Remove {}" or "Take out {}" or "Pull out {}" or "Pull {}" or "Withdraw {}",
  fitted "Install {}" or "Fit {}" or "Insert {}" or "Put in {}" or "Put back {}" or "Refit {}"
}
kind clamp {
  open "Open {}" or "Undo {}" or "Release {}",
  closed "Close {}" or "Shut {}" or "Fasten {}" or "Tighten {}"
}
kind brake { released "Release {}" or "Let off {}" or "Take off {}", set "Set {}" or "Apply {}" or "Put on {}" }
kind jack  { lowered "Lower {}" or "Let down {}", raised "Raise {}" or "Extend {}" }
kind prop {
  away "Remove {}" or "Take away {}" or "Take out {}",
  fitted "Put {} in place" or "Fit {}" or "Install {}" or "Place {}" or "Put in {}" or "Set up {}"
}
kind lock {
  away "Remove {}" or "Take off {}",
  fitted "Attach {}" or "Fit {}" or "Put on {}" or "Apply {}" or "Hang {}"
}
kind tag {
  away "Remove {}" or "Take off {}",
  fitted "Attach {}" or "Fit {}" or "Put on {}" or "Apply {}" or "Hang {}"
}
kind barrier {
  away "Remove {}" or "Take away {}" or "Take down {}",
  fitted "Put {} in place" or "Place {}" or "Put up {}" or "Set up {}"
}
kind ground-wire {
  apart "Disconnect {}" or "Detach {}" or "Remove {}",
  connected "Connect {}" or "Attach {}" or "Reconnect {}" or "Fit {}"
}

// Things that are moved by hand.
kind lever {
  off printed "OFF" "Move {} to OFF" or "Set {} to OFF" or "Put {} to OFF" or "Turn {} to OFF",
  on printed "ON" "Move {} to ON" or "Set {} to ON" or "Put {} to ON" or "Turn {} to ON"
}
kind handle { stowed "Stow {}" or "Put away {}" or "Push in {}", pulled "Pull {}" or "Pull out {}" }

// Things that run.
kind pump {
  stopped "Stop {}" or "Switch off {}" or "Turn off {}" or "Shut down {}" or "Shut off {}",
  running "Start {}" or "Switch on {}" or "Turn on {}" or "Start up {}"
}
kind fan {
  stopped "Stop {}" or "Switch off {}" or "Turn off {}" or "Shut down {}",
  running "Start {}" or "Switch on {}" or "Turn on {}" or "Start up {}"
}
kind motor {
  stopped "Stop {}" or "Switch off {}" or "Turn off {}" or "Shut down {}",
  running "Start {}" or "Switch on {}" or "Turn on {}" or "Start up {}"
}
kind engine {
  stopped "Stop {}" or "Switch off {}" or "Shut down {}" or "Turn off {}",
  running "Start {}" or "Start up {}" or "Switch on {}"
}
kind cart {
  stopped "Stop {}" or "Switch off {}" or "Turn off {}" or "Shut down {}",
  running "Start {}" or "Switch on {}" or "Turn on {}" or "Start up {}"
}
kind compressor {
  stopped "Stop {}" or "Switch off {}" or "Turn off {}" or "Shut down {}",
  running "Start {}" or "Switch on {}" or "Turn on {}" or "Start up {}"
}
kind conveyor {
  stopped "Stop {}" or "Switch off {}" or "Turn off {}" or "Shut down {}",
  running "Start {}" or "Switch on {}" or "Turn on {}" or "Start up {}"
}
kind heater { off "Switch off {}" or "Turn off {}", on "Switch on {}" or "Turn on {}" }
kind light  { off "Switch off {}" or "Turn off {}" or "Put out {}", on "Switch on {}" or "Turn on {}" }
kind starter {
  off "Release {}" or "Let go of {}" or "Stop {}",
  cranking "Hold {}" or "Crank {}" or "Engage {}" or "Operate {}"
}

// Things that people wear, and things that are done once.
kind worn { away "Take off {}" or "Remove {}", on "Put on {}" or "Wear {}" }
kind test { due "Cancel {}", passed "Do {}" or "Carry out {}" or "Perform {}" }

// Things that can only be seen.
kind lamp        seen { off, on }
kind needle      seen { low, normal, high }
kind sight-glass seen { low, normal, high }
kind trip        seen { normal, tripped }
kind flag        seen { away, shown }
`;
