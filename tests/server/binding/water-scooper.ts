/** The example of the language's own description: a fictional amphibious water-scooper, and the card that rinses its compressor. */
export const merganser = `// merganser.card: what the aircraft and its ground equipment are.
kind breaker { closed "Close {}", pulled "Pull and tag {}" }
kind valve   { closed "Close {}", open "Open {}" }
kind plug    { apart "Disconnect {}", connected "Connect {}" }
kind chock   { away "Remove {}", fitted "Put {} in place" }
kind lever   { cutoff "Move {} to CUTOFF", run "Move {} to RUN" }
kind cart    { stopped "Stop {}", running "Start {}" }
kind starter { off "Release {}", cranking "Hold {}" }
kind worn    { away "Take off {}", on "Put on {}" }
kind test    { due "Cancel {}", passed "Do {}" }

item wheel-chocks       : chock   "the chocks at the main wheels"   normally fitted
item ignition-breakers  : breaker "the ignition circuit breakers"   at "panel C3, row 2" normally closed
item fuel-lever-1       : lever   "the left fuel lever"             at "centre pedestal" normally cutoff verify
item fire-detection     : test    "the fire detection test"         at "overhead panel"
item ground-power       : plug    "the ground power plug"           at "left nose bay" normally apart
item bus-tie            : breaker "the bus tie contactor"           at "overhead panel" normally closed
item power-cart         : cart    "the ground power cart"           normally stopped
item wash-valve-1       : valve   "the left wash valve"             at "left nacelle" normally closed
item ear-defenders      : worn    "ear defenders"                   reduces 25 dB
item starter-1          : starter "the left starter switch"         at "overhead panel" normally off
                          needs dc-power while cranking {
  duty cranking at most 30 s, then rest 60 s
  duty cranking at most 3 times, then rest 30 min
}

gauge bus-voltage "bus voltage" in V at "overhead panel" {
  reads 0 to 32 by 0.5
  limit cranking at least 24 V
  limit normal   27 V to 29 V
}
gauge ng-1 "left gas generator speed" in % { reads 0 to 110 by 1   limit crank at least 12 % }
gauge wash-pressure "wash water pressure" in psi { reads 0 to 100 by 2   limit spray 40 psi to 60 psi }

supply dc-power "28 V direct current" {
  source power-cart when power-cart running
  link power-cart -> right-bus when ground-power connected
  link right-bus <-> left-bus  when bus-tie closed
  link left-bus  -> starter-1
}

hazard noise "noise" while power-cart running {
  level 98 dBA
  warning "Noise can damage your hearing. Wear ear defenders."
  protect ear-defenders on
}
hazard turning "turning parts" while starter-1 cranking {
  danger "A turning propeller can kill. Keep everyone out of the marked area."
}

rule fire-test-first "Test fire detection before an engine turns" {
  before any starter cranking
  require fire-detection passed
  because "Fuel left in the burner can catch fire while the engine turns."
}
rule no-spark "No ignition while the engine is washed" {
  while starter-1 cranking
  require ignition-breakers pulled and fuel-lever-1 cutoff
}
`;

export const rinse = `// rinse.card
use "merganser.card"

card rinse-left "Rinse the left compressor after a salt-water sortie" {
  number   "MG-72-03"
  revision "B" on 2026-10-02
  crew     cockpit "Cockpit", ground "Ground observer"
  tools    "Wash cart with 20 L of drinking water"

  stage "Make the aircraft safe" {
    step by ground   set wheel-chocks fitted
    step by cockpit  set ignition-breakers pulled
    step by cockpit  set fuel-lever-1 cutoff
    step by cockpit  set fire-detection passed
  }
  stage "Bring power to the aircraft" {
    warning noise
    step by ground   set ear-defenders on
    step by ground   set ground-power connected
    step by ground   takes 2 min to 5 min   set power-cart running
    step by cockpit  set bus-tie closed
    step by cockpit  read bus-voltage in cranking   else go to no-power
  }
  stage "Rinse" {
    danger turning
    step by ground  { set wash-valve-1 open   read wash-pressure in spray }
    repeat 2 times {
      step by cockpit { run starter-1 cranking for 25 s {
        watch ng-1 reaches at least 12 % within 10 s else stop "Report the starter."
      } }
      step by cockpit { wait 60 s }
    }
  }
  stage "Make safe" when stopped {
    step by ground   set power-cart stopped
  }
  stage no-power "Put everything back" {
    step by ground   set wash-valve-1 closed
    step by ground   { set power-cart stopped   set ground-power apart }
    step by ground   set ear-defenders away
    step by cockpit  set ignition-breakers closed
    sign cockpit "Work done"
  }
}
`;
