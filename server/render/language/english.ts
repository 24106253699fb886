import pluralize from 'pluralize';
import { lazily } from '../../../shared/lazily.ts';
import { lowered } from '../../../shared/text.ts';
import { englishChanges } from './english-changes.ts';
import type { FixedWords, GrammarWords, Left } from './words.ts';

// British lists have no comma before "and", which is how a line of parts reads best on a card.
const listOf = (type: 'conjunction' | 'disjunction') => {
  const format = lazily(() => new Intl.ListFormat('en-GB', { type, style: 'long' }));
  return (parts: readonly string[]) => format().format(parts);
};
const and = listOf('conjunction');
const or = listOf('disjunction');

const isPlural = (label: string) =>
  /^(?:those|these|both|all|several)\b/i.test(label) || pluralize.isPlural(lastWordOf(headOf(label)));

/** The part of a label that its verb agrees with: "the chocks" of "the chocks at the main wheels". */
function headOf(label: string): string {
  return label.split(afterHead)[0] as string;
}

/** Where a label tells which of several is meant, or where it is. */
const afterHead =
  / (?=(?:at|of|in|on|for|to|under|behind|between|with|near|above|below|around|over|along|against|beside|inside|outside) |\()/;

/** A sentence that goes on after a word; what is written in capitals stays so. */
function lowerFirst(sentence: string): string {
  return /^\p{Lu}\p{Ll}/u.test(sentence) ? lowered(sentence) : sentence;
}

const saysWhatIs =
  /^(?:an?|the|this|that|these|those|there|it|its|no|both|each|every|some|if|when|where)\b|^\S+(?: \S+)? (?:is|are|was|were|has|have|may|must|can|cannot|does)\b/i;

/** An order that comes after another; what is no order, such as "A valve leaks." or "P1 is not fit.", stands as it is. */
const thenDo = (sentence: string) => (saysWhatIs.test(sentence) ? sentence : `Then ${lowerFirst(sentence)}`);

function lastWordOf(text: string): string {
  return text.trim().split(/\s+/).at(-1) ?? '';
}

/** "the left breaker", "the right breaker" → "the left and right breakers"; labels that share no beginning and end are listed whole. */
function list(labels: readonly string[]): string {
  const words = labels.map((label) => label.split(' '));
  const shared = sharedEnds(words);
  if (labels.length < 2 || shared === undefined) return and(labels);
  const first = words[0] as string[];
  const middles = words.map((own) => own.slice(shared.before, own.length - shared.after).join(' '));
  const ending = first.slice(first.length - shared.after).join(' ');
  return [...first.slice(0, shared.before), and(middles), severalOf(ending)].join(' ');
}

/** "fuel lever at the pedestal" → "fuel levers at the pedestal"; in "of pump 1" there is nothing to be several. */
function severalOf(ending: string): string {
  const [head = '', ...rest] = ` ${ending}`.split(afterHead);
  const words = head.trim() === '' ? [] : head.trim().split(' ');
  const noun = words.pop();
  return [...words, ...(noun === undefined ? [] : [pluralize.plural(noun)]), ...rest].join(' ');
}

/** How many words all begin and all end with; undefined where that leaves one of them without a word of its own. */
function sharedEnds(words: readonly (readonly string[])[]): { before: number; after: number } | undefined {
  const first = words[0] ?? [];
  const shortest = Math.min(...words.map((own) => own.length));
  let before = 0;
  while (before < shortest && words.every((own) => own[before] === first[before])) before++;
  let after = 0;
  while (after < shortest && words.every((own) => own.at(-1 - after) === first.at(-1 - after))) after++;
  return before > 0 && after > 0 && before + after < shortest ? { before, after } : undefined;
}

/** A gauge's label as the object of a sentence: "the bus voltage"; a label that brings its article, or is a proper name, stays as it is. */
function theOf(label: string): string {
  return /^(?:the|an?|each|every|this|that)\s/i.test(label) || !/^\p{Ll}/u.test(label) ? label : `the ${label}`;
}

const within = (time: string | undefined) => (time === undefined ? '' : ` within ${time}`);
/** Orders that say by themselves that they go on: "Hold the starter switch for 25 s". */
const isLasting = (command: string) =>
  /^(?:hold|keep|run|crank|press and hold|pull and hold|push and hold)\b/i.test(command);
const leave = (command: string, { label, state }: Left) =>
  isLasting(command) ? command : `${command} and leave ${isPlural(label) ? 'them' : 'it'} ${state}`;
const times = (count: number) => (count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`);
/** State words that bring their own verb: `does not start`, `runs freely`. */
const verbal =
  /^(?:does|has|can|will|is|runs|starts|stops|moves|turns|opens|closes|works|fails|leaks|holds|fits|stays|stands|hangs|shows|reads|rests|touches|slips|sticks)(?= |$)/;
const severally: Readonly<Record<string, string>> = { does: 'do', has: 'have', is: 'are', can: 'can', will: 'will' };
const predicate = (state: string, isSeveral: boolean): string => {
  const verb = verbal.exec(state)?.[0];
  if (verb === undefined) return `${isSeveral ? 'are' : 'is'} ${state}`;
  if (!isSeveral) return state;
  return `${severally[verb] ?? verb.replace(/(?<=ch)es$|s$/, '')}${state.slice(verb.length)}`;
};
const be = (label: string) => (isPlural(label) ? 'are' : 'is');
const have = (label: string) => (isPlural(label) ? 'have' : 'has');

const grammar: GrammarWords = {
  list,
  and,
  or,
  setTo: (labels, state) => `Set ${labels} to ${state}`,
  object: (labels) => labels,
  is: (label, state) => `${label} ${predicate(state, isPlural(label))}`,
  isNot: (label, state) =>
    verbal.test(state)
      ? `it is not so that ${label} ${predicate(state, isPlural(label))}`
      : `${label} ${be(label)} not ${state}`,
  areAll: (labels, state) => `${labels} ${predicate(state, true)}`,
  readings: (gauges, bound) => `${list(gauges.map(theOf))} are ${bound}`,
  lasting: (label, state, duration) => `${label} ${have(label)} been ${state} for ${duration}`,
  notLasting: (label, state, duration) => `${label} ${have(label)} not been ${state} for ${duration}`,
  anyIs: ({ one }, state) => `at least one ${one} is ${state(one)}`,
  everyIs: ({ one }, state) => `every ${one} is ${state(one)}`,
  noneIs: ({ one }, state) => `no ${one} is ${state(one)}`,
  notEveryIs: ({ one }, state) => `not every ${one} is ${state(one)}`,
  reading: (gauge, bound) => `${theOf(gauge)} is ${bound}`,
  notReading: (gauge, bound) => `${theOf(gauge)} is not ${bound}`,
  clause: (gauge, bound) => `${theOf(gauge)} is ${bound}`,
  until: (condition) => condition,
  reaches: (supply, node) => `${supply} reaches ${node}`,
  notReaches: (supply, node) => `${supply} does not reach ${node}`,
  atLeast: (quantity) => `at least ${quantity}`,
  atMost: (quantity) => `at most ${quantity}`,
  above: (quantity) => `above ${quantity}`,
  below: (quantity) => `below ${quantity}`,
  range: (low, high) => `${low} to ${high}`,
  exactly: (quantity, tolerance) => (tolerance === undefined ? `exactly ${quantity}` : `${quantity} ± ${tolerance}`),
  upTo: (least, most) => `${least} to ${most}`,
  about: (quantity) => `about ${quantity}`,
  decimalPoint: '.',
  open: '… (not yet said in this draft)',
  group: (condition) => `(${condition})`,
};

export const english: FixedWords = {
  tag: 'en',
  signal: { danger: 'DANGER', warning: 'WARNING', caution: 'CAUTION', note: 'NOTE' },
  heading: {
    beforeYouStart: 'Before you start',
    forTheWholeCard: 'For the whole card',
    steps: 'Steps',
    whenACheckFails: 'When a check fails',
    ifYouStop: 'If you stop',
    atTheEnd: 'How the machine is left',
    accepted: 'Accepted deviations',
    sources: 'Sources',
    revisions: 'Revision record',
    record: 'Record of the work',
    findings: 'Findings in this draft',
    overview: 'The machine at a glance',
    way: 'The way through the card',
  },
  front: {
    number: 'Card',
    release: 'Release',
    madeFrom: (digits, version) => `sources ${digits}, Cardwright ${version}`,
    signOff: { prepared: 'Prepared by', checked: 'Checked by', approved: 'Approved by' },
    revision: 'Revision',
    date: 'Date',
    appliesTo: 'Applies to',
    allMachines: 'All machines',
    purpose: 'Purpose',
    crew: 'Crew',
    role: 'Role',
    qualification: 'Qualification',
    name: 'Name',
    time: 'Time',
    tools: 'Tools',
    materials: 'Materials',
    parts: 'Parts',
    references: 'References',
    does: 'Includes',
    whenBegun: (states) => `Before it begins: ${states}.`,
    none: 'None',
    timeOf: (least, most) =>
      most === undefined ? `at least ${least}` : least === most ? least : `${least} to ${most}`,
    standingCaution:
      'The approved maintenance data, the rules of your organisation and the duties of your licence come first. Where this card differs from them, stop and follow them.',
    relies: 'This card relies on these and does not check them. Make sure of each.',
    atHand: 'Everything that this card lists under tools, parts and materials is at hand.',
    nothingRelied: 'This card checks or sets everything that it relies on.',
    why: 'Why',
    whyFrom: {
      rule: (name) => `the rule “${name}”`,
      hazard: (name) => `the hazard “${name}”`,
      supply: (name) => `this card needs ${name}`,
    },
    rested: (label, rest) => `${label} ${have(label)} rested for at least ${rest}.`,
    draft: 'DRAFT',
    draftMeaning: 'This card has errors. It is not for use on a machine. Its findings are listed at the end.',
    checksLowered: (checks) =>
      `Settings switch off or lower checks of this card (${checks}). It is not for use on a machine.`,
    digest: (digits) => `Digest of this card: ${digits}`,
    openWarnings: (count) => (count === 1 ? '1 warning is open' : `${count} warnings are open`),
    page: (page, pages) => ['Page ', page, ' of ', pages],
  },
  step: {
    step: (number) => `step ${number}`,
    steps: (first, last) =>
      first === last ? `step ${first}` : `steps ${first} ${last === first + 1 ? 'and' : 'to'} ${last}`,
    only: (machines) => `Only for ${machines}`,
    takes: (time) => `Time: ${time}`,
    see: (reference) => `See: ${reference}`,
    check: (condition) => `Check that ${condition}.`,
    checkQuestion: (question) => `Check: ${question}`,
    ensure: (condition) => `Make sure that ${condition}.`,
    ifItIsNot: 'If not',
    putRight: 'Put it right, then say here that it is so.',
    ifNot: 'If not',
    ifNotReached: 'If not reached',
    ifItNeverIs: 'If that does not happen',
    read: (gauge) => `Read ${theOf(gauge)}`,
    workOut: (gauge, left, sign, right) =>
      `Work out ${theOf(gauge)}: ${left} ${sign === '-' ? 'minus' : 'plus'} ${right}`,
    bringByRows: (gauge, time) => `Bring ${theOf(gauge)} to the limit that applies${within(time)}:`,
    bring: (gauge, bound, time) => `Bring ${theOf(gauge)} to ${bound}${within(time)}`,
    mustBe: (bound) => `It must be ${bound}`,
    dependsOn: (gauge) => `The limit depends on ${theOf(gauge)}`,
    when: (condition) => `where ${condition}`,
    runFor: (command, left, time) => `${leave(command, left)} for ${time}.`,
    runUntil: (command, left, condition, time) =>
      `${leave(command, left)} until ${condition}${time === undefined ? '' : `, but no longer than ${time}`}.`,
    meanwhile: 'While it runs:',
    noLongerThan: (time) => `Never longer than ${time}`,
    restAfter: (time) => `then rest ${time}`,
    timesThenRest: (count, time) => `After ${count} runs rest ${time}`,
    timesInWindow: (count, time) => `No more than ${count} starts in ${time}`,
    insideTheLimit: 'inside the limit that applies',
    watchReaches: (gauge, bound, time) =>
      time === undefined
        ? `Watch ${theOf(gauge)}: it must come to ${bound}.`
        : `Watch ${theOf(gauge)}: it must be ${bound} within ${time}.`,
    watchStays: (gauge, bound) => `Watch ${theOf(gauge)}: it must be ${bound} all the time.`,
    wait: (time) => `Wait ${time}.`,
    waitUntil: (condition, time) =>
      time === undefined ? `Wait until ${condition}.` : `Wait up to ${time} until ${condition}.`,
    atLeastTime: (time) => `at least ${time}`,
    atMostTime: (time) => `at most ${time}`,
    record: (text) => `Write down: ${text}`,
    recordTable: (texts) => `Fill in the table: ${texts}`,
    tighten: (what, torque, isRange, pattern) =>
      `Tighten ${what}${isRange ? ': ' : ' to '}${torque}${pattern === undefined ? '' : `, in ${pattern}`}`,
    toolNumber: 'Tool number',
    dueDate: 'Due date',
    recordPart: (part) => `Write down what is fitted: ${part}`,
    partNumber: 'Part number',
    batch: 'Batch',
    expires: 'Expiry date',
    goTo: (step, stage) => (stage === undefined ? `go to step ${step}` : `go to step ${step}, “${stage}”`),
    goToEnd: (stage) => (stage === undefined ? 'go to the end of the card' : `go to “${stage}”`),
    goToUnknown: 'go to a step that this draft does not have',
    stop: 'STOP.',
    doIfYouStop: 'Do “If you stop”.',
    doStopSteps: (steps) => `Do ${steps} (last page).`,
    thenDo,
    finish: 'finish and go to the record of the work',
    sign: 'Signature',
    inspectedBy: 'Inspected by (not the person who did it)',
    timeOfDay: 'Time',
    yes: 'yes',
    no: 'no',
    reading: 'Reading',
    value: 'Value',
    finding: 'Finding',
  },
  block: {
    if: (condition) => `If ${condition}:`,
    otherwise: 'If not:',
    otherwiseIf: (condition) => `If not, and ${condition}:`,
    skip: (steps) => `If not, leave out ${steps}.`,
    mend: (step) => `Only if step ${step} sends you here:`,
    repeatTimes: (steps, count) => `Do ${steps} ${times(count)}.`,
    answeredYes: (question) => `the answer to “${question}” is yes`,
    repeatUntil: (steps, condition, count) =>
      count === 1
        ? `Do ${steps} once. Then check that ${condition}.`
        : `Do ${steps} until ${condition}, at most ${times(count)}.`,
    theSteps: 'this',
    notSoAfter: (count) => (count === 1 ? 'If not' : `If it is still not so after ${count} times`),
    done: 'Done',
    timesDone: (count) => `Times done (of ${count})`,
    together: 'At the same time:',
    choose: 'Do one of these:',
    forEach: 'Do this for each item:',
    forEachValue: 'Do this with each value, one after the other:',
    item: 'Item',
    value: 'Value',
    whatToDo: 'What to do',
    keep: (condition) =>
      `From here to the end of this part, see to it at all times that ${condition}. Look before each step.`,
    do: (title, number) => (number === undefined ? title : `${title} (card ${number})`),
  },
  back: {
    where: 'Where',
    check: 'What must be so',
    ifItFails: 'If it is not',
    because: 'Reason',
    deviation: 'Deviation',
    acceptedBy: 'Accepted by',
    source: 'Source',
    comesFromIt: 'What comes from it',
    noSource: 'No source named',
    putBack: 'Put back by this card:',
    left: 'Left as this card sets it:',
    alteredAtStops: 'After a stop, look at each of these: it may still be so.',
    wholeCard: 'the whole card',
    inFile: (file) => `in ${file}`,
    workOrder: 'Work order',
    machine: 'Machine type, serial number',
    station: 'Station',
    workDone: 'Work done',
    dateCompleted: 'Date completed',
    doneBy: 'Done by (name)',
    approvedBy: 'Approved for return to service by (signature)',
    certificate: 'Certificate number and kind',
    remarks: 'Remarks, readings outside limits, steps left out',
    changesSince: (revision) => `Changes since revision ${revision}`,
    noChanges: 'None.',
    change: 'Change',
    signature: 'Signature',
    aviationMeaning: 'Entries as 14 CFR 43.9 asks for them. Signing approves only the work written down here.',
    level: 'Level',
    error: 'Error',
    warning: 'Warning',
  },
  change: englishChanges,
  picture: {
    scale: (gauge, from, to, bound) => `Scale of ${theOf(gauge)} from ${from} to ${to}. Good: ${bound}.`,
    duty: (item, duties) => `Runs and rests of ${item}. ${duties}.`,
    run: (longest) => (longest === undefined ? 'run' : `run, at most ${longest}`),
    runs: (count) => `${count} runs`,
    rest: (time) => `rest ${time}`,
    source: (node, when) => `Source: ${node}${when === undefined ? '' : `, when ${when}`}.`,
    link: (from, to, when) => `From ${from} to ${to}${when === undefined ? '' : `, when ${when}`}.`,
    flow: 'Where nothing else is drawn, a check that fails stops the work.',
    way: (from, when, to) => `From ${from}${when === undefined ? '' : `, ${when}`}: to ${to}.`,
    rounds: (count) => (count === 1 ? 'Once' : `${count} times`),
    afterRounds: () => 'then',
    together: 'At the same time',
    allDone: 'When all are done',
    stop: 'Stop',
    finish: 'Finish',
  },
  workCopy: {
    open: 'Work with this card on this screen',
    goOn: 'Go on with the work',
    asPrinted: 'Show the card as printed',
    done: 'Done',
    doneAt: 'Done at {time}',
    undo: 'Undo the last entry',
    undone: 'Taken back',
    stopNow: 'Stop the work',
    stopped: 'The work was stopped.',
    leaveOut: 'Leave out',
    leftOut: 'Left out',
    yes: 'Yes',
    no: 'No',
    passed: 'OK',
    failed: 'Not OK',
    enter: 'Enter',
    reading: 'Reading',
    unit: 'Unit',
    value: 'Value',
    notANumber: 'Enter a number, such as 24.5.',
    understood: 'Understood: {value}',
    whichNumber: 'Which number do you mean?',
    scaleEnds: 'The scale ends at {end}: read again.',
    scaleBegins: 'The scale begins at {end}: read again.',
    nameNeeded: 'Write the name.',
    choiceNeeded: 'Choose which of them is so now.',
    reasonForStop: 'Why was the work stopped?',
    from: '{where}, {time}: {value}',
    rowFrom: 'The limit is the one for {value} ({where}, {time}): {limit}.',
    answeredFrom: '{answer}: it follows from what was read. {from}.',
    workedOutFrom: '{value} = {parts}',
    inside: '{value} is inside the limit: {limit}.',
    outside: '{value} is OUTSIDE the limit: {limit}.',
    overDate: '{date} is OVER: it is earlier than today.',
    otherTool: '{number} is none of the tools that were written down before the work.',
    whichLimit: 'Which of these is so now?',
    notSo: 'It is not so.',
    goThere: 'Go there',
    answerFirst: 'The card relies on this. Answer it first: {what}',
    secondIsOther: 'The second person is not whoever does this step: write another name.',
    goOnAnyway: 'Go on here all the same',
    isFirm: 'A rule or a hazard of this card relies on it: the work does not go on past this.',
    moreReason: 'Say in a few words what was found, and why you do so.',
    secondName: 'Name of a second person who agrees',
    wentOn: 'Gone on although it was not so: {reason} Agreed by {name}.',
    wentOnUnchecked: 'Gone on although nobody looked whether it was so: {reason} Agreed by {name}.',
    wentOnOver: 'Gone on over what was not as it must be',
    begin: 'Begin',
    end: 'End',
    running: 'Running {time} of {most}',
    release: 'Time is up. End it now.',
    tooLong: 'TOO LONG: end it now. Never longer than {limit}.',
    tooLongBy: 'too long by {time}',
    itemTooLongBy: '{item}: too long by {time}.',
    inState: '{item}: {time} of {limit}',
    thisIsDone: 'This is done',
    ranOut: '{answer}: the time for it is over.',
    tooLate: 'Too late by {time}.',
    ranFor: 'Ran for {time}',
    restLeft: 'Rest of {item}: {time} left',
    restOver: 'The rest of {item} is over.',
    shut: 'Shut until the rest is over',
    beginAnyway: 'Begin before the rest is over',
    wait: 'Start the clock',
    waitLeft: '{time} to wait',
    waitOver: 'The wait is over.',
    waited: 'Waited {time}',
    endEarly: 'End it now',
    timeLeft: '{time} left',
    timeOver: 'The time for it is over.',
    didReach: 'Reached',
    didNotReach: 'Not reached',
    sign: 'Sign',
    name: 'Name',
    signedBy: 'Signed by {name}',
    inspector: 'Name of the inspector',
    workBy: 'Name of whoever did the work',
    inspectedBy: 'Inspected by {name}; the work was done by {by}',
    sameName: 'Whoever did the work cannot inspect it: another person signs here.',
    outOfOrder: 'This is not the next step. Why do it now?',
    missingLines: 'Not everything in this step is entered. Why go on?',
    reason: 'Reason',
    record: 'Keep the reason and go on',
    cancel: 'Back',
    choose: 'Do this one',
    round: 'Time {round} of {times}',
    now: 'Now',
    finish: 'Finish and make the record',
    finished: 'The work is finished.',
    finishMeaning: 'Fill in what the record needs, then print it or save it as a file.',
    headMeaning: 'Fill this in before the first step. It stands on each page of the record.',
    machineType: 'Machine type',
    headMissing: 'Fill in the machine and each name.',
    onePerson: '{name} stands for more than one role. Is it the same person? Then press “{button}” once more.',
    onePersonDoes: '{name} does the work of more than one role.',
    headDone: 'Begin the work',
    save: 'Save the record as a file',
    load: 'Load a saved record',
    loaded: 'The record is loaded.',
    altered:
      'This card was altered after it was exported: its digest is {own}, and it says {stated}. Do not work with it. Get the card anew.',
    cannotCompare:
      'This browser cannot tell whether this card was altered after it was exported. Compare it with the printed card, or open it in another browser.',
    loadForeign: 'This is the record of another card: {card}. Nothing is changed.',
    loadRevision: 'This is a record of revision {other} of this card, and this is revision {own}. Nothing is changed.',
    loadChangedCard:
      'This record belongs to another state of this card: the card was changed without a new revision. Nothing is changed.',
    doubtChanged: 'It was changed by hand after it was saved.',
    doubtOtherCopy: 'It was made with an altered copy of this card.',
    doubtUnchecked: 'Nobody can tell whether it was changed by hand after it was saved.',
    loadOver: 'There are {count} entries on this device already, the last of {time}.',
    loadInPlace: 'Put it in their place, and keep them',
    loadAnyway: 'Load it all the same',
    readIn: 'Add it to them',
    takeUpBefore: 'Back to the {count} entries from before',
    nothingNew: 'All entries of this file are here already.',
    wasReadIn: 'Read in from another record: {count} entries. Places where the two say different things: {conflicts}.',
    conflicts: 'Two records of the same work',
    conflictsMeaning: 'Say which counts. The other stays in the record, struck out.',
    entriesHere: 'Entered here',
    entriesReadIn: 'Read in',
    thisCounts: 'This counts',
    whoDecides: 'Name of whoever decides',
    settled: 'Of what two records said differently, {name} decided what counts.',
    settleFirst: 'Decide first what counts where the two records say different things.',
    recordMade: 'The record was made.',
    recordDigest: 'Digest of this record: {digest}',
    loadBroken: 'This file is not a record of this program, or it is damaged. Nothing is changed.',
    print: 'Print',
    startAgain: 'Begin a new record',
    startAgainMeaning: 'This takes the entries off this device. Have you printed or saved them?',
    recordTitle: 'Record of the work, as entered',
    time: 'Time',
    where: 'Where',
    what: 'What',
    storageFailed:
      'This device does not keep what you enter. Go on working, but do not close this page before you have saved or printed the record.',
    otherTab: 'The same card was changed in another window. This is the newest state.',
    keep: 'Keep',
    labelled: '{label}: {text}',
    keepBroken: 'It is no longer so',
    clockBack: 'The clock of this device was set back. Times of runs and rests may be wrong: use another clock.',
    handOver: 'Hand over the work',
    handsOver: 'Hands over (name)',
    takesOver: 'Takes over (name)',
    mustKnow: 'What the next one must know',
    notHere: 'Nobody of this name does this work. Whoever hands over is one of these: {names}.',
    otherTakesOver: 'Somebody else takes over: write another name.',
    handedOver: 'Handed over by {from} to {to}.',
    handOverPage: 'Hand-over of the work',
    comesNext: 'What comes next',
    isOpen: 'What is open',
    nothingOpen: 'Nothing is open.',
    stillRuns: 'Begun at {time} and not ended.',
    stateNow: 'How the machine stands now',
    noStateYet: 'This card has not set or checked anything yet.',
    since: '({where}, {time})',
    mayHaveChanged: 'It may have changed by itself since then.',
    signature: 'Signature',
  },
  grammar,
  kinds: 'as shipped',
};
