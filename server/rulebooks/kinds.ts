/** `std:kinds`: the kinds that every machine has. They are in scope in every file; a kind of the same name in a file stands before them. */
export const kinds = `// Things that open and shut.
kind valve   { closed "Close {}", open "Open {}" }
kind door    { closed "Close {}", open "Open {}" }
kind panel   { fitted "Fit {}", removed "Remove {}" }
kind cover   { fitted "Fit {}", removed "Remove {}" }
kind cap     { fitted "Fit {}", removed "Remove {}" }
kind plug    { connected "Connect {}", apart "Disconnect {}" }
kind hose    { connected "Connect {}", apart "Disconnect {}" }
kind drain   { closed "Close {}", open "Open {}" }
kind gate    { closed "Close {}", open "Open {}" }
kind guard   { fitted "Fit {}", removed "Remove {}" }
kind latch   { locked "Lock {}", released "Release {}" }

// Things that carry or cut power.
kind breaker { closed "Close {}", open "Open {}", pulled "Pull and tag {}" }
kind switch  { off "Set {} to OFF", on "Set {} to ON" }
kind selector { off "Set {} to OFF", auto "Set {} to AUTO", on "Set {} to ON" }
kind button  { released "Release {}", pressed "Press and hold {}" }
kind isolator { open "Open {}", closed "Close {}", locked "Open and lock {}" }
kind contactor { open "Open {}", closed "Close {}" }
kind fuse    { fitted "Fit {}", removed "Remove {}" }
kind battery { connected "Connect {}", apart "Disconnect {}" }
kind key     { away "Remove {}", fitted "Insert {}" }

// Things that hold something where it is.
kind chock   { away "Remove {}", fitted "Put {} in place" }
kind pin     { away "Remove {}", fitted "Install {}" }
kind clamp   { open "Open {}", closed "Close {}" }
kind brake   { released "Release {}", set "Set {}" }
kind jack    { lowered "Lower {}", raised "Raise {}" }
kind prop    { away "Remove {}", fitted "Put {} in place" }
kind lock    { away "Remove {}", fitted "Attach {}" }
kind tag     { away "Remove {}", fitted "Attach {}" }
kind barrier { away "Remove {}", fitted "Put {} in place" }
kind ground-wire { apart "Disconnect {}", connected "Connect {}" }

// Things that are moved by hand.
kind lever   { off "Move {} to OFF", on "Move {} to ON" }
kind handle  { stowed "Stow {}", pulled "Pull {}" }

// Things that run.
kind pump    { stopped "Stop {}", running "Start {}" }
kind fan     { stopped "Stop {}", running "Start {}" }
kind motor   { stopped "Stop {}", running "Start {}" }
kind engine  { stopped "Stop {}", running "Start {}" }
kind cart    { stopped "Stop {}", running "Start {}" }
kind compressor { stopped "Stop {}", running "Start {}" }
kind conveyor { stopped "Stop {}", running "Start {}" }
kind heater  { off "Switch off {}", on "Switch on {}" }
kind light   { off "Switch off {}", on "Switch on {}" }
kind starter { off "Release {}", cranking "Hold {}" }

// Things that people wear, and things that are done once.
kind worn    { away "Take off {}", on "Put on {}" }
kind test    { due "Cancel {}", passed "Do {}" }

// Things that can only be seen.
kind lamp seen        { off, on }
kind needle seen      { low, normal, high }
kind sight-glass seen { low, normal, high }
kind trip seen        { normal, tripped }
kind flag seen        { away, shown }
`;
