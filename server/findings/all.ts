/** Every finding that there is, in the order of the reference. A new one is a file beside this one and a line here. */
import { acceptUnused } from './accept-unused.ts';
import { cardDuplicateNumber } from './card-duplicate-number.ts';
import { cardMissingField } from './card-missing-field.ts';
import { crewMissing } from './crew-missing.ts';
import { crewOwnInspection } from './crew-own-inspection.ts';
import { crewTwoHands } from './crew-two-hands.ts';
import { crewUnknown } from './crew-unknown.ts';
import { dutyPlate } from './duty-plate.ts';
import { dutyShortRest } from './duty-short-rest.ts';
import { dutyTakes } from './duty-takes.ts';
import { dutyTooLong } from './duty-too-long.ts';
import { dutyTooOften } from './duty-too-often.ts';
import { dutyUnbounded } from './duty-unbounded.ts';
import { figureUnusable } from './figure-unusable.ts';
import type { FindingSort } from './finding.ts';
import { flowAlwaysPasses } from './flow-always-passes.ts';
import { flowEndless } from './flow-endless.ts';
import { flowGap } from './flow-gap.ts';
import { flowNeverPasses } from './flow-never-passes.ts';
import { flowOverlap } from './flow-overlap.ts';
import { flowUnreachable } from './flow-unreachable.ts';
import { internal } from './internal.ts';
import { limitBetweenMarks } from './limit-between-marks.ts';
import { limitConflict } from './limit-conflict.ts';
import { limitEmpty } from './limit-empty.ts';
import { limitInText } from './limit-in-text.ts';
import { limitLooser } from './limit-looser.ts';
import { limitOffScale } from './limit-off-scale.ts';
import { lockoutAuthorised } from './lockout-authorised.ts';
import { lockoutOtherHand } from './lockout-other-hand.ts';
import { lockoutPurpose } from './lockout-purpose.ts';
import { nameDuplicate } from './name-duplicate.ts';
import { nameRecursion } from './name-recursion.ts';
import { nameUnknown } from './name-unknown.ts';
import { nameUnused } from './name-unused.ts';
import { nameUnusedItem } from './name-unused-item.ts';
import { noiseDose } from './noise-dose.ts';
import { proseActionInAdmonition } from './prose-action-in-admonition.ts';
import { proseAdmonitionOrder } from './prose-admonition-order.ts';
import { proseConditionLast } from './prose-condition-last.ts';
import { proseCourse } from './prose-course.ts';
import { proseImperative } from './prose-imperative.ts';
import { proseLongSentence } from './prose-long-sentence.ts';
import { proseNounCluster } from './prose-noun-cluster.ts';
import { proseSeveralActions } from './prose-several-actions.ts';
import { proseUnsaidAction } from './prose-unsaid-action.ts';
import { proseVague } from './prose-vague.ts';
import { proseWord } from './prose-word.ts';
import { recordOpenOverStages } from './record-open-over-stages.ts';
import { recordOwnInspection } from './record-own-inspection.ts';
import { recordTaskOverStages } from './record-task-over-stages.ts';
import { safetyLeftChanged } from './safety-left-changed.ts';
import { safetyNotAssumed } from './safety-not-assumed.ts';
import { safetyRule } from './safety-rule.ts';
import { safetyUnprotected } from './safety-unprotected.ts';
import { safetyUnsafeStop } from './safety-unsafe-stop.ts';
import { safetyWarningLate } from './safety-warning-late.ts';
import { safetyWarningMissing } from './safety-warning-missing.ts';
import { settingsUnusable } from './settings-unusable.ts';
import { signalWord } from './signal-word.ts';
import { stateNoChange } from './state-no-change.ts';
import { stateNotLeft } from './state-not-left.ts';
import { stateSeen } from './state-seen.ts';
import { supplyNotFed } from './supply-not-fed.ts';
import { syntaxCharacter } from './syntax-character.ts';
import { syntaxComment } from './syntax-comment.ts';
import { syntaxMissing } from './syntax-missing.ts';
import { syntaxNesting } from './syntax-nesting.ts';
import { syntaxNumber } from './syntax-number.ts';
import { syntaxReserved } from './syntax-reserved.ts';
import { syntaxText } from './syntax-text.ts';
import { syntaxTooLarge } from './syntax-too-large.ts';
import { syntaxUnclosed } from './syntax-unclosed.ts';
import { syntaxUnexpected } from './syntax-unexpected.ts';
import { textHidden } from './text-hidden.ts';
import { torquePasses } from './torque-passes.ts';
import { torqueTolerance } from './torque-tolerance.ts';
import { torqueTool } from './torque-tool.ts';
import { unitMismatch } from './unit-mismatch.ts';
import { unitUnknown } from './unit-unknown.ts';

export const allFindings: readonly FindingSort[] = [
  syntaxCharacter,
  syntaxComment,
  syntaxMissing,
  syntaxNesting,
  syntaxNumber,
  syntaxReserved,
  syntaxText,
  syntaxTooLarge,
  syntaxUnclosed,
  syntaxUnexpected,
  textHidden,
  nameDuplicate,
  nameRecursion,
  nameUnknown,
  nameUnused,
  nameUnusedItem,
  unitMismatch,
  unitUnknown,
  crewMissing,
  crewOwnInspection,
  signalWord,
  lockoutAuthorised,
  lockoutOtherHand,
  lockoutPurpose,
  recordOpenOverStages,
  recordOwnInspection,
  recordTaskOverStages,
  crewTwoHands,
  crewUnknown,
  cardDuplicateNumber,
  cardMissingField,
  figureUnusable,
  flowAlwaysPasses,
  flowEndless,
  flowGap,
  flowNeverPasses,
  flowOverlap,
  flowUnreachable,
  stateNoChange,
  stateNotLeft,
  stateSeen,
  safetyLeftChanged,
  safetyNotAssumed,
  safetyRule,
  safetyUnprotected,
  safetyUnsafeStop,
  safetyWarningLate,
  safetyWarningMissing,
  supplyNotFed,
  dutyShortRest,
  dutyTakes,
  dutyPlate,
  torquePasses,
  torqueTolerance,
  torqueTool,
  dutyTooLong,
  dutyTooOften,
  dutyUnbounded,
  limitBetweenMarks,
  limitConflict,
  limitEmpty,
  limitInText,
  limitLooser,
  limitOffScale,
  noiseDose,
  proseActionInAdmonition,
  proseAdmonitionOrder,
  proseLongSentence,
  proseSeveralActions,
  proseUnsaidAction,
  proseVague,
  proseConditionLast,
  proseCourse,
  proseImperative,
  proseNounCluster,
  proseWord,
  acceptUnused,
  settingsUnusable,
  internal,
];

const byCode = new Map(allFindings.map((sort) => [sort.code, sort]));

export function findSort(code: string): FindingSort | undefined {
  return byCode.get(code);
}
