/** The head of a card. */
import type * as syntax from '../../grammar/syntax.ts';
import type { AssumedState, Card, Words } from '../../shared/card.ts';
import { type Building, findItemInState, placeOf, type Scope } from './names.ts';
import { Once } from './once.ts';
import { bindCount } from './quantities.ts';
import { bindWords, filledIn } from './texts.ts';
import { bindWhich } from './variants.ts';

export type Head = Pick<
  Card,
  | 'number'
  | 'revision'
  | 'signOffs'
  | 'purpose'
  | 'language'
  | 'applies'
  | 'tools'
  | 'parts'
  | 'materials'
  | 'references'
  | 'assumes'
  | 'leaves'
>;

type Needs = Pick<Head, 'tools' | 'parts' | 'materials' | 'references' | 'assumes'>;

/** What a card needs of whoever does it. */
export function bindNeeds(scope: Scope, fields: readonly syntax.Field[]): Needs {
  return {
    tools: toolsOf(scope, fields),
    parts: partsOf(scope, fields),
    materials: wordsOf(scope, fields, 'materials'),
    references: wordsOf(scope, fields, 'references'),
    assumes: bindAssumed(scope, fields, 'assume'),
  };
}

export function bindHead(scope: Scope, fields: readonly syntax.Field[]): Head {
  const head: Building<Head> = {
    ...bindNeeds(scope, fields),
    leaves: bindAssumed(scope, fields, 'leaves'),
    signOffs: {},
  };
  const once = new Once(scope);
  for (const field of fields) addSingle(scope, head, field, once);
  return head;
}

/** Fields that a card has once. */
function addSingle(scope: Scope, head: Building<Head>, field: syntax.Field, once: Once): void {
  switch (field.type) {
    case 'number-field':
      if (once.take('number', field)) head.number = bindWords(scope, field.text);
      return;
    case 'revision':
      if (once.take('revision', field)) head.revision = bindRevision(scope, field);
      return;
    case 'prepared':
    case 'checked':
    case 'approved':
      if (once.take(field.type, field)) head.signOffs = { ...head.signOffs, [field.type]: bindSignOff(scope, field) };
      return;
    case 'purpose':
      if (once.take('purpose', field)) head.purpose = field.text && filledIn(scope, field.text);
      return;
    case 'language':
      if (once.take('language', field)) head.language = bindWords(scope, field.text);
      return;
    case 'applies':
      if (once.take('applies', field)) head.applies = bindWhich(scope, field.which);
      return;
  }
}

export function bindRevision(scope: Scope, field: Extract<syntax.Field, { type: 'revision' }>): Card['revision'] {
  return field.text && { ...bindWords(scope, field.text), date: field.date?.text };
}

type SignOff = Extract<syntax.Field, { type: 'prepared' | 'checked' | 'approved' }>;

function bindSignOff(scope: Scope, { by, date }: SignOff): Card['revision'] {
  return by && { ...bindWords(scope, by), date: date?.text };
}

function wordsOf(scope: Scope, fields: readonly syntax.Field[], type: 'materials' | 'references'): readonly Words[] {
  return fields.flatMap((field) => (field.type === type ? field.texts.map((text) => bindWords(scope, text)) : []));
}

function toolsOf(scope: Scope, fields: readonly syntax.Field[]): Head['tools'] {
  return fields.flatMap((field) =>
    field.type !== 'tools'
      ? []
      : field.texts.map((text) => ({
          ...bindWords(scope, text),
          ...(field.calibrated?.includes(text) && { calibrated: true as const }),
        })),
  );
}

export function partsOf(scope: Scope, fields: readonly syntax.Field[]): Head['parts'] {
  return fields.flatMap((field) =>
    field.type !== 'parts'
      ? []
      : field.parts.map(({ text, number, quantity, batch, expires }) => ({
          text: bindWords(scope, text),
          number: number && filledIn(scope, number),
          quantity: bindCount(scope, quantity, 'counts less than one'),
          batch,
          expires,
        })),
  );
}

function bindAssumed(
  scope: Scope,
  fields: readonly syntax.Field[],
  type: 'assume' | 'leaves',
): readonly AssumedState[] {
  const once = new Once(scope);
  return fields.flatMap((field) => {
    if (field.type !== type) return [];
    const because = field.because && filledIn(scope, field.because);
    return field.states.flatMap((node) => {
      const assumed = findItemInState(scope, node.item, node.state);
      if (assumed === undefined || !once.take(`${type} ${assumed.item.name}`, node)) return [];
      return [{ ...assumed, place: placeOf(scope, node), because }];
    });
  });
}
