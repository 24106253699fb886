/** Who does what: the roles of a card, which are also those of everything that it does. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Role } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { capital, type Place } from '../../shared/text.ts';
import { reportSecond } from './duplicates.ts';
import { inWords, placeOf, type Scope } from './names.ts';
import { nearest, surelyMeant } from './nearest.ts';
import type { Declared } from './references.ts';

export interface Crew {
  readonly roles: ReadonlyMap<string, { readonly role: Role; readonly declared: Declared }>;
  /** Roles named by a text that has no crew of its own: a procedure by itself, or a card that lacks its crew. By name. */
  readonly implied?: Map<string, Role>;
  /** In something that is `do`ne: what, and where the card does it. */
  readonly done?: { readonly name: string; readonly place: Place };
}

export type CrewScope = Scope & { readonly crew: Crew };

/** The crew of a card. A card that names none has whoever its steps name: that it lacks the field is another finding. */
export function bindCrew(scope: Scope, fields: readonly syntax.Field[], owner: Declared): Crew {
  const roles = new Map<string, { role: Role; declared: Declared }>();
  for (const member of fields.flatMap((field) => (field.type === 'crew' ? field.members : []))) {
    const { name, label, qualified } = member;
    const first = roles.get(name.text)?.declared;
    if (first) {
      reportSecond(scope, name, 'role', first);
      continue;
    }
    const place = placeOf(scope, name);
    const role: Role = {
      name: name.text,
      label: label?.value ?? capital(inWords(name.text)),
      qualified: qualified?.value,
      place,
    };
    roles.set(name.text, { role, declared: scope.work.references.declare('role', name, scope.file, owner) });
  }
  return roles.size === 0 ? anyCrew() : { roles };
}

/** Takes every role as it is named. */
export function anyCrew(): Crew {
  return { roles: new Map(), implied: new Map() };
}

export function findRole(scope: CrewScope, name: syntax.Name | undefined): Role | undefined {
  if (name === undefined) return undefined;
  const { crew } = scope;
  const entry = crew.roles.get(name.text);
  if (entry) {
    scope.work.references.use(name, scope.file, entry.declared);
    return entry.role;
  }
  return crew.implied ? impliedRole(scope, crew.implied, name) : reportUnknownRole(scope, name);
}

function impliedRole(scope: Scope, implied: Map<string, Role>, name: syntax.Name): Role {
  return getOrInsert(implied, name.text, () => ({
    name: name.text,
    label: capital(inWords(name.text)),
    place: placeOf(scope, name),
  }));
}

/** In what is `do`ne the slip may be the card's as well as the procedure's: it stands at the `do`. Goes on with a role that was surely meant. */
function reportUnknownRole({ work, crew, file }: CrewScope, name: syntax.Name): Role | undefined {
  if (work.lost.has(name.text)) return undefined;
  const near = nearest(name.text, crew.roles.keys());
  const place = crew.done?.place ?? placeOf({ file }, name);
  work.problems.add({ type: 'unknown-role', place, name: name.text, near, done: crew.done?.name });
  for (const meant of near) work.perhapsMeant.add(meant);
  const meant = surelyMeant(name.text, near);
  return meant === undefined ? undefined : crew.roles.get(meant)?.role;
}
