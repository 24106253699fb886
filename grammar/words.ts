/**
 * The words of the language, by what they do. The lexer, the parser's messages, the colouring grammar and the reference
 * are all made from these lists. Every word that is in none of the reserved lists may also be a name.
 */

/** Words that join or bound other things: never a name, and never a state. */
export const joiningWords = [
  'and',
  'or',
  'not',
  'in',
  'at',
  'above',
  'below',
  'reaches',
  'to',
  'for',
  'else',
  'step',
] as const;

/** Words that begin a declaration. */
export const declaringWords = [
  'use',
  'kind',
  'item',
  'gauge',
  'supply',
  'hazard',
  'rule',
  'variant',
  'procedure',
  'card',
] as const;

/** The signal words of admonitions, the gravest first. */
export const levelWords = ['danger', 'warning', 'caution', 'note'] as const;

/** Words that begin a statement, beside `step` and `for`. */
export const statingWords = [
  ...levelWords,
  'if',
  'repeat',
  'together',
  'do',
  'choose',
  'keep',
  'sign',
  'go',
  'stop',
  'finish',
  'accept',
  'figure',
] as const;

/** Words that begin an action of a step. */
export const actingWords = ['set', 'ensure', 'check', 'read', 'bring', 'run', 'wait', 'record'] as const;

/** Words that begin an action too, but may be names elsewhere. */
export const contextualActingWords = ['tighten'] as const;

export const quantifyingWords = ['any', 'every'] as const;

/** Words that begin a field of a card. */
export const fieldWords = [
  'number',
  'revision',
  'prepared',
  'checked',
  'approved',
  'purpose',
  'language',
  'applies',
  'crew',
  'tools',
  'materials',
  'parts',
  'references',
  'assume',
  'leaves',
] as const;

/** Words that have a meaning only where the grammar asks for them. */
export const partWords = [
  'stage',
  'seen',
  'normally',
  'verify',
  'may',
  'when',
  'reduces',
  'needs',
  'while',
  'duty',
  'most',
  'least',
  'then',
  'rest',
  'times',
  'moved',
  'by',
  'reads',
  'limit',
  'exactly',
  'source',
  'link',
  'level',
  'protect',
  'before',
  'end',
  'require',
  'because',
  'only',
  'on',
  'qualified',
  'stopped',
  'until',
  'each',
  'takes',
  'see',
  'within',
  'watch',
  'stays',
  'inspected',
  'independent',
  'printed',
  'part',
  'quantity',
  'batch',
  'expires',
  'calibrated',
  'will',
  'could',
  'kill',
  'injure',
  'damage',
  'rated',
] as const;

export const reservedWords = [
  ...joiningWords,
  ...declaringWords,
  ...statingWords,
  ...actingWords,
  ...quantifyingWords,
] as const;

export const contextualWords = [...fieldWords, ...partWords, ...contextualActingWords] as const;

export type StatingWord = (typeof statingWords)[number];
export type ActingWord = (typeof actingWords)[number] | (typeof contextualActingWords)[number];

/** A word that begins a sentence: it has a pattern, and what is begun with it is offered. */
export type HeadWord =
  | (typeof declaringWords)[number]
  | (typeof fieldWords)[number]
  | StatingWord
  | ActingWord
  | 'stage'
  | 'step'
  | 'for';

export type Keyword = (typeof reservedWords)[number] | (typeof contextualWords)[number];
