/**
 * How far the path engine goes. Within these limits and `stateBound` it is exact: what it tells some run of the card does, and all that
 * some run does it tells. Past a limit of the first part it allows more than can happen: nothing is missed, and a finding may be a
 * false alarm.
 */

// ---------------------------------------------------------------- past these more is allowed than can happen

/** Points of the interleavings of lanes: where there are more, the moves of the lanes come in any order and number. */
export const mostProductPoints = 200_000;
/** Different times of one place that are kept apart: the others become one that allows what any of them allows. */
export const mostTimesApart = 16;
/** So many on the average of all places, and so many places with their times in any case: beyond, each further place has one. */
export const mostTimesOnAverage = 2;
export const leastTimed = 2_000;
/** How often the times of one place become wider before what goes on growing is left open. */
export const mostWidenings = 16;
/** Questions of time in one condition that are answered both ways: where there are more, they stay open. */
export const mostAnswered = 4;
/** Where bounds begin or end on one gauge, as a mask has 31 bits: where there are more, the last ones are not known. */
export const mostCuts = 30;
/** How often a duty or a dose of one place grows before it counts as endless. */
export const mostGrowing = 64;
/** Rows of starts that are kept for one place of a duty with a window. */
export const mostStarts = 64;
/** Places with the rounds done so far: loops in loops have the product of their counts. Where there are more, times are left open. */
export const mostUnrolled = 50_000;

// ---------------------------------------------------------------- past these less is told or worked out at once

/** Combinations of variants that are looked at, and the sorts of machine among them that are proved; the proof says so. */
export const mostAssignments = 4096;
export const mostSorts = 512;
/** Items of which a rule asks in one question: each one more may double the states, and items apart can be asked of apart. */
export const mostTogether = 4;
/** Moves in all rounds of a silent loop that become one move: a way is told round by round. */
export const mostJoined = 10_000;
/** Rows of literals that a condition is turned into. */
export const mostConjunctions = 256;
/** Changes that are made together to feed or cut something, at most; and sets of changes that a search for the fewest tries. */
export const mostChanged = 4;
export const mostTried = 20_000;
/** Runs that are counted beyond those that a duty allows: a loop may have any number. */
export const mostCountedOver = 20;
/** Events of a path that are told, and how many of them from its start where it is longer. */
export const mostEventsTold = 24;
export const eventsFromStart = 4;
/** The last places of a duty's way, from which it is told. */
export const mostPlacesTold = 400;
