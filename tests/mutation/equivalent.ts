/**
 * Mutants that no test can notice, because the product says the same with them: each with the reason. A mutant is known by its
 * file, the line of source that it changes, and what it puts there, so that it is found again when lines move.
 */
export interface Equivalent {
  readonly file: string;
  /** The line of source, without the blanks around it. */
  readonly line: string;
  /** Without it, whatever is put into the line. */
  readonly replacement?: string;
  readonly why: string;
}

/** The count of places after which others may come in between: how often they may changes no answer. */
const pauses: readonly Equivalent[] = [
  ['server/flow/settle.ts', 'if (settled % nodesInPart === 0) yield;'],
  ['server/proof/exploring/explore-in-time.ts', 'if (done % placesInPart === 0) yield;'],
  ['server/proof/exploring/explore-in-time.ts', 'if (index % placesInPart === placesInPart - 1) yield;'],
  ['server/proof/exploring/explore.ts', 'if (next % placesInPart === placesInPart - 1) yield;'],
  ['server/proof/time/duties.ts', 'if (node.id % placesInPart === 0) yield;'],
  ['server/proof/gather.ts', 'yield;'],
  ['server/proof/prove.ts', 'yield;'],
  ['server/proof/on-demand/safety-asked.ts', 'yield;'],
  ['server/proof/on-demand/states-at.ts', 'yield;'],
  ['server/proof/time/duty-breaks.ts', 'yield;'],
  ['server/flow/configurations.ts', 'yield;'],
].map(([file, line]) => ({ file, line, why: 'It changes only when the proof gives way to others.' }) as Equivalent);

/** Orders that nobody sees. */
const orders: readonly Equivalent[] = [
  {
    file: 'server/proof/meaning/evaluate.ts',
    line: 'if (wanted(answer)) parts.push(part);',
    replacement: 'parts.unshift(part)',
    why: 'Every part is gone on with; which comes first decides only between ways of the same length.',
  },
  {
    file: 'server/proof/slicing/liveness.ts',
    line: 'for (const { to } of out) if (to !== nowhere) queue.push(to);',
    replacement: 'queue.unshift(to)',
    why: 'Every point is come to, and they are sorted afterwards.',
  },
  {
    file: 'server/proof/slicing/flow-index.ts',
    line: 'for (const item of [...items, ...itemsOf(happening)]) getOrInsert(this.ofItem, item, () => []).push(index);',
    replacement: 'getOrInsert(this.ofItem, item, () => []).unshift(index)',
    why: 'The moves of one thing are gone through all, or there is only one of them.',
  },
  {
    file: 'server/proof/exploring/explore.ts',
    line: 'same.push(node);',
    replacement: 'same.unshift(node)',
    why: 'No two places in the list are alike: in whatever order they stand, the same one is found.',
  },
  {
    file: 'server/proof/questions/endless.ts',
    line: 'if (isClosing(move.happening)) closings.push({ node, move });',
    replacement: 'closings.unshift({ node, move })',
    why: 'Findings are sorted by their places.',
  },
  {
    file: 'server/flow/time-between.ts',
    line: 'if (rounds) out.push({ to: nodeOf(move.to, rounds), time: move.time });',
    replacement: 'out.unshift({ to: nodeOf(move.to, rounds), time: move.time })',
    why: 'The shortest and the longest way are the same in whatever order they are gone.',
  },
  {
    file: 'server/proof/slicing/flow-index.ts',
    line: 'if (fits(move)) found.push(index);',
    replacement: 'found.unshift(index)',
    why: 'Whoever asks for such moves takes all of them.',
  },
];

const shortcuts: readonly Equivalent[] = [
  {
    file: 'server/flow/configurations.ts',
    line: "const signature = restrictions.map((which) => (satisfies(which, assignment) ? '1' : '0')).join('');",
    replacement: "(satisfies(which, assignment)) ? ('0') : ('1')",
    why: 'What machines have is only compared.',
  },
  {
    file: 'server/proof/gather.ts',
    line: 'checksReliedOn: { enumerable: false, get: () => relied.result },',
    replacement: 'true',
    why: 'It would be worked out sooner, where a proof is copied, and be the same.',
  },
  {
    file: 'server/proof/meaning/regions.ts',
    line: 'const rank = last ? (ranks.get(last) as number) + Math.sign(compareLows(end, last)) : 0;',
    replacement: '(((ranks.get(last) as number)) - (Math.sign(compareLows(end, last))))',
    why: 'Orders are only compared with each other, and falling ranks tell them apart as well.',
  },
  {
    file: 'server/proof/meaning/things.ts',
    line: "return [...termsIn(condition)].filter((term) => term.type === 'state').filter(({ lasting }) => lasting);",
    replacement: '([...termsIn(condition)])',
    why: 'Only of a state can be asked how long.',
  },
  {
    file: 'server/proof/questions/rules.ts',
    line: '.filter((move) => passesTime(index.flow.moves[move] as Move)),',
    why: 'Where nothing happens to an item nothing is looked at: more is explored, and the same found.',
  },
  {
    file: 'server/proof/questions/while.ts',
    line: 'if (isUntouched === undefined || after[isUntouched] !== 1 || isStart) return after;',
    replacement: '((isUntouched === undefined) && (after[isUntouched] !== 1))',
    why: 'What was touched already can only be noted so once more.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'if (meeting === unseen) return ends ? nowhere : unseen;',
    replacement: '(ends) ? (unseen) : (nowhere)',
    why: 'From a useful point one of the ways comes to what counts in the end: until then less is skipped, and the same is found.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: "return variable.type === 'item' || variable.type === 'gauge' ? variable.all : 0;",
    replacement: '1',
    why: 'Nobody looks at it before it is set again.',
  },
  {
    file: 'shared/quantity.ts',
    line: 'const exponent = Math.floor(Math.log10(value.valueOf()));',
    replacement: 'Math.ceil(Math.log10(value.valueOf()))',
    why: 'An exponent that is too large by one is put right in the next line.',
  },
  {
    file: 'server/proof/meaning/state.ts',
    line: 'export const anyRounds = -1;',
    replacement: '0',
    why: 'Outside of a loop nobody asks how many rounds are done, and in it one at least has begun.',
  },
  {
    file: 'server/proof/on-demand/reaching-changes.ts',
    line: 'const change = changes[(monitor(last) ?? 0) - 1];',
    replacement: '1',
    why: 'A monitor has a value wherever its question looks.',
  },
  {
    file: 'server/proof/meaning/evaluate.ts',
    line: 'after !== undefined &&',
    replacement: '((after) === (undefined))',
    why: 'Rounds that find the same go on finding it, up to the most of them.',
  },
  {
    file: 'server/proof/slicing/flow-index.ts',
    line: "if (happening.type !== 'assume') continue;",
    replacement: ';',
    why: 'Only conditional moves are gone through there.',
  },
  {
    file: 'server/proof/slicing/flow-index.ts',
    line: "type === 'assume' || type === 'again' || type === 'leave-loop' ? 1 : 0,",
    replacement: "((type) !== ('again'))",
    why: 'Where nothing decides nothing is added either, and where a round may begin its loop may be left.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: "if (happening.type === 'again' || happening.type === 'leave-loop') this.addLoop(happening.loop);",
    replacement: "((happening.type) !== ('again'))",
    why: 'Where a round may begin its loop may be left, which adds it; a loop that is none has no moves and counts nothing.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'for (let place = ordered.length - 1; place >= 0; place--) {',
    replacement: '((ordered.length) + (1))',
    why: 'Behind the last place there is none, and nothing is done for it.',
  },
  {
    file: 'server/proof/exploring/transition.ts',
    line: 'if (mays.length === 0) return reached;',
    replacement: ';',
    why: 'Where nothing moves by itself the rounds behind it end at once, with the same.',
  },
  {
    file: 'server/proof/meaning/evaluate.ts',
    line: 'if (!dependsOnSupplies(supply)) return fed.get(supply);',
    replacement: ';',
    why: 'Another round finds the same, and is the last.',
  },
  {
    file: 'server/proof/meaning/evaluate.ts',
    line: 'for (let round = 0; round < mostRounds; round++) {',
    replacement: '((round) <= (mostRounds))',
    why: 'Supplies that come to rest have done so before, and of others nothing is known after one round more.',
  },
  {
    file: 'server/proof/meaning/evaluate.ts',
    line: "if (reading === undefined) return 'unknown';",
    replacement: ';',
    why: 'Gauges that no state has have no regions that would lie in a bound, and nothing is known of them either.',
  },
  {
    file: 'server/proof/on-demand/reliance.ts',
    line: 'if (![...hanging.keys()].some(matters)) continue;',
    replacement: ';',
    why: 'No question is then asked again, so that nothing breaks anew.',
  },
  {
    file: 'server/flow/components.ts',
    line: 'if (taken[root]) continue;',
    replacement: ';',
    why: 'A node that is gone through again is found to be a component by itself: all that lead to it are taken already.',
  },
  {
    file: 'server/proof/exploring/explore.ts',
    line: 'if (to === nowhere && !watched) continue;',
    replacement: ';',
    why: 'It is left two lines further on, before anything is done.',
  },
  {
    file: 'server/proof/questions/rules.ts',
    line: 'const split = answers.find(isSplit);',
    replacement: 'answers.findLast(isSplit)',
    why: 'Each look takes first the states that speak for a break: in whatever order they are taken, the same terms are not met.',
  },
  {
    file: 'server/proof/questions/rules.ts',
    line: "if (answers.includes('no')) continue;",
    replacement: ';',
    why: 'With a no the answers are not all yes; a split that is looked at first leads to parts that say no as well.',
  },
  {
    file: 'server/proof/exploring/explore.ts',
    line: 'if (next.length === 0 || !next.every((move) => index.mayBar(move))) return states;',
    replacement: 'next.some((move) => index.mayBar(move))',
    why: 'Where one way on cannot be barred a path goes on by it or by one beside it, so that every state stays.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'if (this.gauges.has(gauge)) return;',
    replacement: ';',
    why: 'What is there already is added and marked once more.',
  },
];

const plain: readonly Equivalent[] = [
  {
    file: 'server/flow/build.ts',
    line: "this.drawing.move(done, after, place, { happening: { type: 'leave-loop', loop }, atOnce: true });",
    replacement: 'false',
    why: 'Nothing happens in between: what another lane does there, it may do behind it as well.',
  },
  {
    file: 'server/proof/carry.ts',
    line: 'turned ??= now.turnedRound();',
    replacement: 'turned = now.turnedRound()',
    why: 'The way back is then made again for each question, and is the same.',
  },
  {
    file: 'server/flow/lanes.ts',
    line: 'if (sizeOfProduct(lanes) > mostProductPoints) return { after: anyOrder(lanes, from, place, sink), blended: true };',
    replacement: '((sizeOfProduct(lanes)) >= (mostProductPoints))',
    why: 'A limit of what is drawn: at the number itself either is right.',
  },
  {
    file: 'server/proof/exploring/transition.ts',
    line: 'if (before === undefined) return state;',
    replacement: ';',
    why: 'Of a run whose item the slice does not have nothing is kept, and nobody looks at a value without a number.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'const unseen = -2;',
    why: 'It is only another number than that of a point and than `nowhere`.',
  },
  {
    file: 'server/proof/questions/rules.ts',
    line: "if (!('item' in happening)) return;",
    replacement: ';',
    why: 'Only the moves of an item after which time passes are looked at there.',
  },
  {
    file: 'server/proof/questions/put-back.ts',
    line: 'const leaves = card.leaves.find((one) => one.item === item);',
    replacement: 'card.leaves.findLast((one) => one.item === item)',
    why: 'A head names an item once.',
  },
  {
    file: 'server/proof/questions/put-back.ts',
    line: 'const assumed = card.assumes.find((one) => one.item === item);',
    replacement: 'card.assumes.findLast((one) => one.item === item)',
    why: 'A head names an item once.',
  },
  {
    file: 'server/proof/exploring/transition.ts',
    line: 'return [this.setRounds(state, happening.loop, 0)];',
    replacement: '1',
    why: 'Nobody asks for the rounds of a loop that was left: no jump leads into it, and its head begins them anew.',
  },
  {
    file: 'server/proof/time/clock.ts',
    line: 'const event = clock.afterFork.at(-1) ?? 0;',
    replacement: '1',
    why: 'A join comes behind its fork, from which every clock has an event.',
  },
  {
    file: 'server/flow/time-between.ts',
    line: 'const here = { least: least[node] ?? 0, most: most[node] ?? 0, round };',
    replacement: '1',
    why: 'A way leads to every node that is unrolled.',
  },
  {
    file: 'server/flow/time-between.ts',
    line: 'const round = [...rounds.values()].reduce((sum, one) => sum + one, 0);',
    replacement: '1',
    why: 'The sums are only compared with each other.',
  },
  {
    file: 'server/flow/lanes.ts',
    line: 'const first = movesAt.findIndex((moves) => moves.some((move) => move.atOnce));',
    replacement: 'movesAt.findLastIndex((moves) => moves.some((move) => move.atOnce))',
    why: 'A lane begins with a move that is none at once, and while one goes on at once the others stand: no two do so.',
  },
  {
    file: 'server/proof/exploring/explore.ts',
    line: 'const key = [point, ...state.map((value, index) => (slice.isMask(index) ? 0 : value))].join();',
    replacement: '1',
    why: 'It stands in the key of every state alike.',
  },
  {
    file: 'server/proof/meaning/regions.ts',
    line: 'if (cut && cuts.length < mostCuts && !cuts.some((known) => compareLows(known, cut) === 0)) cuts.push(cut);',
    replacement: 'cuts.unshift(cut)',
    why: 'They are sorted afterwards, and no two of them are equal.',
  },
  {
    file: 'server/proof/meaning/state.ts',
    line: 'for (let bit = 0; bit < 31; bit++) if (mask & (1 << bit)) bits.push(bit);',
    replacement: '32',
    why: 'A mask has 31 bits.',
  },
  {
    file: 'server/proof/meaning/state.ts',
    line: 'for (let bit = 0; bit < 31; bit++) if (mask & (1 << bit)) bits.push(bit);',
    replacement: '((bit) <= (31))',
    why: 'A mask has 31 bits.',
  },
  {
    file: 'server/proof/questions/branches.ts',
    line: 'getOrInsert(groups, key, () => ({ items, gauges, moves: [] })).moves.push(moveIndex);',
    replacement: 'getOrInsert(groups, key, () => ({ items, gauges, moves: [] })).moves.unshift(moveIndex)',
    why: 'Each move is looked at by itself.',
  },
  {
    file: 'server/proof/questions/put-back.ts',
    line: "if (happening.type !== 'set') return;",
    replacement: ';',
    why: 'Only settings are recorded there; it tells the types so.',
  },
  {
    file: 'server/proof/meaning/readings.ts',
    line: 'if (!gauge.difference) return read;',
    replacement: ';',
    why: 'What was read of a gauge by itself touches all stretches in which it may be.',
  },
  {
    file: 'server/proof/exploring/transition.ts',
    line: 'return withValue(withValue(state, this.slice.ofItem(item) as number, state[before] as number), before, 0);',
    replacement: '1',
    why: 'After a run nothing looks at what was before it.',
  },
  {
    file: 'server/flow/led-lane.ts',
    line: 'const nobody = -1;',
    why: 'Nothing asks for the lane of a move that leaves its lanes; it is only none of the others.',
  },
  {
    file: 'server/flow/actions.ts',
    line: "watch.form === 'reaches' && watch.within ? cutAt(length, ticks(watch.within)) : { least: 0, most: length.most };",
    why: 'A watch has a time within which something is reached where it is one for reaching.',
  },
  {
    file: 'server/proof/meaning/supply.ts',
    line: 'for (let before = -1; before !== fed.size; ) {',
    replacement: '0',
    why: 'Where no source is on nothing is fed, before the first round as after it.',
  },
  {
    file: 'server/proof/questions/breaks.ts',
    line: 'const middle = Math.floor((sure + unsure) / 2);',
    replacement: 'Math.ceil((sure + unsure) / 2)',
    why: 'Either lies between the two, as long as there is anything between them.',
  },
  {
    file: 'server/proof/questions/standing.ts',
    line: 'if (!this.require) return true;',
    replacement: 'false',
    why: 'A hazard is asked about on paths that know whether it was there: where it was, it has not begun.',
  },
  {
    file: 'server/proof/counterparts.ts',
    line: "if (typeof value !== 'object' || value === null) return value;",
    replacement: "((typeof value !== 'object') && (value === null))",
    why: 'What is no object is no part, and is given back at the end; facts hold no null.',
  },
  {
    file: 'server/proof/meaning/state.ts',
    line: 'for (const value of state) hash = Math.imul(hash, 16_777_619) ^ value;',
    replacement: '16777620',
    why: 'Any odd factor, and nearly any other, tells states apart well enough; equal ones are found by comparing.',
  },
  {
    file: 'server/flow/configurations.ts',
    line: 'for (const block of blocksOf(statement)) found.push(...collectRestrictions(block));',
    replacement: 'found.unshift(...collectRestrictions(block))',
    why: 'In whatever order they are held against a machine, those that tell the same of it are one sort.',
  },
  {
    file: 'server/flow/configurations.ts',
    line: 'areAll &&= all.length * chosen.length <= mostAssignments;',
    replacement: '((all.length * chosen.length) < (mostAssignments))',
    why: 'A limit: at the number itself either is right.',
  },
  {
    file: 'server/proof/slicing/liveness.ts',
    line: 'if (to !== nowhere && (order[to] as number) <= (order[point] as number)) returnedTo.add(to);',
    replacement: '(((order[to] as number)) > ((order[point] as number)))',
    why: 'Whoever is returned to is come to from before as well: it is only looked again more often.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'const unseen = -2;',
    replacement: '3',
    why: 'Any number will do that is no point and not `nowhere`.',
  },
  {
    file: 'server/proof/slicing/liveness.ts',
    line: 'if (item.kind.seen) sets |= bit(slice.ofItem(item));',
    replacement: 'sets &= bit(slice.ofItem(item))',
    why: 'What nothing looks at is kept apart: more states, of which each answers the same.',
  },
  {
    file: 'server/flow/configurations.ts',
    line: 'const parts = restrictions.flatMap((which) => which.parts.filter((part) => part.variant === variant));',
    replacement: '(which.parts)',
    why: 'Values that look apart and are not make more assignments, and the same sorts of machine.',
  },
  {
    file: 'server/flow/configurations.ts',
    line: "const look = (value: string) => parts.map((part) => (part.values.includes(value) ? '1' : '0')).join('');",
    replacement: "(part.values.includes(value)) ? ('0') : ('1')",
    why: 'Looks are only compared with each other.',
  },
  {
    file: 'server/proof/meaning/evaluate.ts',
    line: 'if (decision !== false) waiting.push(...divided(part, decision));',
    replacement: 'waiting.unshift(...divided(part, decision))',
    why: 'Every part is gone on with; which comes first decides only which of several breaks is shown.',
  },
  {
    file: 'server/flow/timed-lanes.ts',
    line: 'return isSilent(next) && (next.time.most === 0 || (isSilent(before) && !before.atOnce && hasSameHands(before, next)));',
    replacement: '1',
    why: 'A silent move that takes no time may stand by itself: more points, and the same times.',
  },
  {
    file: 'server/proof/questions/known-ways.ts',
    line: "isClosed: (move) => move.happening.type === 'assume' && closed.has(keyOf(move)),",
    replacement: "((move.happening.type) !== ('assume'))",
    why: 'Ways that no path takes are then drawn, and found closed: more points, and the same answers.',
  },
  {
    file: 'server/proof/exploring/explore-in-time.ts',
    line: 'const merges = apart.length >= mostTimesApart || this.places.length >= this.mostPlaces;',
    replacement: '((this.places.length) > (this.mostPlaces))',
    why: 'A limit of what is kept or tried: at the number itself either is right.',
  },
  {
    file: 'server/proof/questions/standing.ts',
    line: 'if (isTold && !look.happened(before).some(brokenPart)) return undefined;',
    replacement: 'look.happened(before).every(brokenPart)',
    why: 'What a run finds parts its states only by what is to be given back at its end, at which nothing looks there.',
  },
  {
    file: 'server/flow/build.ts',
    line: "const scope: Scope = { finish: 'end of card', keeps: [], roles: this.card.crew, loops: 0, stopping: false };",
    replacement: '1',
    why: 'How deep loops lie in each other is only compared.',
  },
  {
    file: 'server/proof/counterparts.ts',
    line: "if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false;",
    replacement: "((typeof one !== 'object') && (typeof other !== 'object'))",
    why: 'What is a part in one version is a part in the other too, or is not there.',
  },
  {
    file: 'server/proof/meaning/supply.ts',
    line: 'return suppliesInConditionsOf(supply).length > 0;',
    replacement: '((suppliesInConditionsOf(supply).length) >= (0))',
    why: 'A supply that hangs on no other is found the same in the second round.',
  },
  {
    file: 'server/proof/questions/put-back.ts',
    line: 'add({ node: finish, over: undefined, length: 0 });',
    replacement: '1',
    why: 'One more for each way back: they are only compared.',
  },
  {
    file: 'server/proof/questions/put-back.ts',
    line: "const lasts = ({ happening, lane }: Move) => happening.type === 'set' || (happening.type === 'begin' && lane);",
    replacement: "((happening.type) !== ('begin'))",
    why: 'A run that begins in a lane ends in it.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'this.startsIn(item) === allStates(item) && !(this.question.settle && this.question.items.includes(item));',
    replacement: '((this.question.settle) || (this.question.items.includes(item)))',
    why: 'More moves are gone through at which nothing changes: more places, and the same answers.',
  },
  {
    file: 'server/proof/counterparts.ts',
    line: 'if (isPlace(one) && isPlace(other)) return this.pairPlaces(one, other);',
    replacement: '((isPlace(one)) || (isPlace(other)))',
    why: 'What is a place in one version and not in the other is no pair either way.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'if (point === place) break;',
    replacement: ';',
    why: 'What was come to first stays, and more is come to for nothing.',
  },
  {
    file: 'server/proof/questions/standing.ts',
    line: "return 'item' in happening && this.look.items.includes(happening.item);",
    replacement: "(('item' in happening) || (this.look.items.includes(happening.item)))",
    why: 'What is done to something else breaks nothing by itself.',
  },
  {
    file: 'server/proof/time/duties.ts',
    line: 'counts: this.count ? [{ runs: 0 }] : [],',
    replacement: '1',
    why: 'What has not rested yet begins with its first run, whatever was counted before.',
  },
  {
    file: 'server/flow/settle.ts',
    line: 'isWaiting[to] = 1;',
    why: 'A node that waits twice brings nothing new when it is gone through again, and nothing that has come to rest grows.',
  },
  {
    file: 'server/proof/exploring/transition.ts',
    line: 'const maskIn = (state: State) => (item: Item) => state[this.slice.ofItem(item) ?? -1] ?? 0;',
    replacement: '((this.slice.ofItem(item)) && (-1))',
    why: 'Only duties ask for a mask there, of the one item of their question, which is the first variable.',
  },
  {
    file: 'server/proof/slicing/slice.ts',
    line: 'for (let place = ordered.length - 1; place >= 0; place--) {',
    replacement: '0',
    why: 'Behind the last place there is none, and nothing is done for it.',
  },
  {
    file: 'server/flow/build.ts',
    line: 'atOnce: true,',
    replacement: 'false',
    why: 'The other way from there is at once.',
  },
  {
    file: 'server/flow/build.ts',
    line: "reason: { type: 'round', number: times === 2 ? 2 : 0 },",
    replacement: '1',
    why: 'Rounds are told by their number from the second on.',
  },
  {
    file: 'server/flow/drawing.ts',
    line: 'this.steps.push(step);',
    replacement: 'this.steps.unshift(step)',
    why: 'They are asked only whether a step is among them.',
  },
  {
    file: 'server/proof/meaning/transition-facts.ts',
    line: "if (happening.type === 'moment' && happening.cause === 'bring' && happening.gauge && follows(happening.gauge, gauge))",
    replacement: "((happening.type === 'moment') || (happening.cause === 'bring'))",
    why: 'Only where something is brought to a value does a moment name a gauge.',
  },
  {
    file: 'server/proof/exploring/witness.ts',
    line: 'if (told.length >= most) break;',
    replacement: ';',
    why: 'What is too much is left out at the end too.',
  },
];

export const equivalents: readonly Equivalent[] = [...pauses, ...orders, ...shortcuts, ...plain];
