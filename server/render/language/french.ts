import { lazily } from '../../../shared/lazily.ts';
import { frenchChanges } from './french-changes.ts';
import type { KindTable, Noun, StateOf } from './kinds.ts';
import type { FixedWords, GrammarWords } from './words.ts';

const listOf = (type: 'conjunction' | 'disjunction') => {
  const format = lazily(() => new Intl.ListFormat('fr', { type, style: 'long' }));
  return (parts: readonly string[]) => format().format(parts);
};
const and = listOf('conjunction');
const or = listOf('disjunction');

/** A narrow blank that no line breaks at. */
const narrow = '\u202f';

/** What is numbered has its article in a sentence, and none in a drawing. */
function theSteps(steps: string): string {
  return steps.replace(/^étapes /, 'les étapes ').replace(/^étape /, 'l’étape ');
}

/** As printers set French: a narrow blank inside quotation marks and before high signs. */
function typeset(text: string): string {
  return text
    .replace(/(?<=[^\s:;?!«])\s?([:;?!]+|»)(?=[\s).,»]|$)/gu, `${narrow}$1`)
    .replace(/«\s?/gu, `«${narrow}`)
    .replace(/(?<=\d)\s?%/gu, `${narrow}%`);
}

// ---------------------------------------------------------------- how words fit together

const startsWithVowel = (text: string) => /^[aeiouyàâéèêëîïôœùûh]/i.test(text);
const que = (clause: string) => (/^[aeiouàâéèêëîïôœùû]/i.test(clause) ? `qu’${clause}` : `que ${clause}`);

/** "du robinet", "des vannes", "de la pompe", "d’au moins 2 bar". */
function de(words: string): string {
  if (/^le /i.test(words)) return `du ${words.slice(3)}`;
  if (/^les /i.test(words)) return `des ${words.slice(4)}`;
  return startsWithVowel(words) ? `d’${words}` : `de ${words}`;
}

const isPlural = (label: string) =>
  /^(?:les|des|ces|deux|trois|quatre|cinq|six|\d+|toutes|tous)\b/i.test(label) || / et /u.test(label);
const be = (label: string) => (isPlural(label) ? 'sont' : 'est');
const notBe = (label: string) => (isPlural(label) ? 'ne sont pas' : 'n’est pas');
const counts = ['zéro', 'une', 'deux', 'trois', 'quatre', 'cinq', 'six', 'sept', 'huit', 'neuf', 'dix'];
const times = (count: number) => `${counts[count] ?? count} fois`;
const within = (time: string | undefined) => (time === undefined ? '' : `, en ${time} au plus`);
const atMostTime = (time: string | undefined) => (time === undefined ? '' : ` pendant ${time} au plus,`);

type Gender = 'm' | 'f';

/** The articles of the label tell its gender, of several things too; where none does, the kind's noun does. */
function genderOf(label: string, ofKind: Gender): Gender {
  if (/(?:^|, | et )(?:le|un|tous|aucun)\s/i.test(label)) return 'm';
  return /^(?:la|une|toutes|aucune)\s/i.test(label) ? 'f' : ofKind;
}

/** A state that agrees with what the label names: "ouverte", "ouverts". */
const agreeing =
  (masculine: string, ofKind: Gender): StateOf =>
  (label) =>
    `${masculine}${genderOf(label, ofKind) === 'f' ? 'e' : ''}${isPlural(label) ? 's' : ''}`;

const anyOf = ({ one, gender }: Noun) =>
  gender === undefined ? `au moins un élément de type « ${one} »` : `au moins un${gender === 'f' ? 'e' : ''} ${one}`;
const everyOf = ({ many, gender }: Noun) =>
  gender === undefined ? `tous les éléments de type « ${many} »` : `${gender === 'f' ? 'toutes' : 'tous'} les ${many}`;
const noneOf = ({ one, gender }: Noun) =>
  gender === undefined ? `aucun élément de type « ${one} »` : `aucun${gender === 'f' ? 'e' : ''} ${one}`;

const grammar: GrammarWords = {
  list: and,
  and,
  or,
  setTo: (labels, state) => `Mettre ${labels} sur ${state}`,
  object: (labels) => labels,
  is: (label, state) => `${label} ${be(label)} ${state}`,
  isNot: (label, state) => `${label} ${notBe(label)} ${state}`,
  areAll: (labels, state) => `${labels} sont ${state}`,
  readings: (gauges, bound) => `${and(gauges)} sont chacun ${de(bound)}`,
  lasting: (label, state, duration) => `${label} ${be(label)} ${state} depuis ${duration}`,
  notLasting: (label, state, duration) => `${label} ${notBe(label)} ${state} depuis ${duration}`,
  anyIs: (kind, state) => `${anyOf(kind)} est ${state(kind.one)}`,
  everyIs: (kind, state) => `${everyOf(kind)} sont ${state(everyOf(kind))}`,
  noneIs: (kind, state) => `${noneOf(kind)} n’est ${state(kind.one)}`,
  notEveryIs: (kind, state) => `${anyOf(kind)} n’est pas ${state(kind.one)}`,
  reading: (gauge, bound) => `${gauge} ${be(gauge)} ${de(bound)}`,
  notReading: (gauge, bound) => `${gauge} ${notBe(gauge)} ${de(bound)}`,
  clause: (gauge, bound) => `${gauge} ${be(gauge)} ${de(bound)}`,
  until: (condition) => condition,
  reaches: (supply, node) => `${node} ${isPlural(node) ? 'reçoivent' : 'reçoit'} ${supply}`,
  notReaches: (supply, node) => `${node} ${isPlural(node) ? 'ne reçoivent pas' : 'ne reçoit pas'} ${supply}`,
  atLeast: (quantity) => `au moins ${quantity}`,
  atMost: (quantity) => `au plus ${quantity}`,
  above: (quantity) => `plus de ${quantity}`,
  below: (quantity) => `moins de ${quantity}`,
  range: (low, high) => `${low} à ${high}`,
  exactly: (quantity, tolerance) => (tolerance === undefined ? `exactement ${quantity}` : `${quantity} ± ${tolerance}`),
  upTo: (least, most) => `${least} à ${most}`,
  about: (quantity) => `environ ${quantity}`,
  decimalPoint: ',',
  open: '… (pas encore précisé dans ce projet)',
  group: (condition) => `(${condition})`,
};

// ---------------------------------------------------------------- the shipped kinds

const noun = (gender: Gender, one: string, many = `${one}s`): Noun => ({ one, many, gender });

const shut = (gender: Gender, one: string, many?: string) => ({
  noun: noun(gender, one, many),
  is: { closed: agreeing('fermé', gender), open: agreeing('ouvert', gender) },
  to: { closed: 'Fermer {}', open: 'Ouvrir {}' },
});
const fitted = (gender: Gender, one: string, many?: string) => ({
  noun: noun(gender, one, many),
  is: { fitted: 'en place', removed: agreeing('déposé', gender) },
  to: { fitted: 'Reposer {}', removed: 'Déposer {}' },
});
const connected = (gender: Gender, one: string, many?: string) => ({
  noun: noun(gender, one, many),
  is: { connected: agreeing('branché', gender), apart: agreeing('débranché', gender) },
  to: { connected: 'Brancher {}', apart: 'Débrancher {}' },
});
const inPlace = (gender: Gender, one: string, many?: string) => ({
  noun: noun(gender, one, many),
  is: { away: agreeing('retiré', gender), fitted: 'en place' },
  to: { away: 'Retirer {}', fitted: 'Mettre en place {}' },
});
const running = (gender: Gender, one: string, many?: string) => ({
  noun: noun(gender, one, many),
  is: { stopped: 'à l’arrêt', running: 'en marche' },
  to: { stopped: 'Arrêter {}', running: 'Mettre en marche {}' },
});
const onOrOff = {
  is: { off: 'sur ARRÊT', on: 'sur MARCHE' },
  to: { off: 'Mettre {} sur ARRÊT', on: 'Mettre {} sur MARCHE' },
};
const lit = (gender: Gender) => ({ off: agreeing('éteint', gender), on: agreeing('allumé', gender) });
const level = {
  low: 'au-dessous de la plage normale',
  normal: 'dans la plage normale',
  high: 'au-dessus de la plage normale',
};

const kinds: KindTable = {
  valve: shut('f', 'vanne'),
  door: shut('f', 'porte'),
  panel: fitted('m', 'panneau', 'panneaux'),
  cover: fitted('m', 'capot'),
  cap: {
    noun: noun('m', 'bouchon'),
    is: { fitted: 'en place', removed: agreeing('dévissé', 'm') },
    to: { fitted: 'Revisser {}', removed: 'Dévisser {}' },
  },
  plug: connected('m', 'connecteur'),
  hose: connected('m', 'flexible'),
  drain: shut('f', 'purge'),
  gate: shut('m', 'portail'),
  guard: fitted('m', 'protecteur'),
  latch: {
    noun: noun('m', 'verrou'),
    is: { locked: agreeing('verrouillé', 'm'), released: agreeing('déverrouillé', 'm') },
    to: { locked: 'Verrouiller {}', released: 'Déverrouiller {}' },
  },
  breaker: {
    noun: noun('m', 'disjoncteur'),
    is: {
      closed: agreeing('enclenché', 'm'),
      open: agreeing('déclenché', 'm'),
      pulled: (label) => `${agreeing('tiré', 'm')(label)} et ${agreeing('étiqueté', 'm')(label)}`,
    },
    to: { closed: 'Enclencher {}', open: 'Déclencher {}', pulled: 'Tirer et étiqueter {}' },
  },
  switch: { noun: noun('m', 'interrupteur'), ...onOrOff },
  selector: {
    noun: noun('m', 'sélecteur'),
    is: { ...onOrOff.is, auto: 'sur AUTO' },
    to: { ...onOrOff.to, auto: 'Mettre {} sur AUTO' },
  },
  button: {
    noun: noun('m', 'bouton'),
    is: { released: agreeing('relâché', 'm'), pressed: agreeing('enfoncé', 'm') },
    to: { released: 'Relâcher {}', pressed: 'Maintenir l’appui sur {}' },
  },
  isolator: {
    noun: noun('m', 'sectionneur'),
    is: { open: agreeing('ouvert', 'm'), closed: agreeing('fermé', 'm'), locked: agreeing('consigné', 'm') },
    to: { open: 'Ouvrir {}', closed: 'Fermer {}', locked: 'Ouvrir et consigner {}' },
  },
  contactor: shut('m', 'contacteur'),
  fuse: {
    noun: noun('m', 'fusible'),
    is: { fitted: 'en place', removed: agreeing('retiré', 'm') },
    to: { fitted: 'Mettre en place {}', removed: 'Retirer {}' },
  },
  battery: connected('f', 'batterie'),
  key: {
    noun: noun('f', 'clé'),
    is: { away: agreeing('retiré', 'f'), fitted: 'en place' },
    to: { away: 'Retirer {}', fitted: 'Introduire {}' },
  },
  chock: inPlace('f', 'cale'),
  pin: inPlace('f', 'goupille'),
  clamp: {
    noun: noun('f', 'bride'),
    is: { open: agreeing('desserré', 'f'), closed: agreeing('serré', 'f') },
    to: { open: 'Desserrer {}', closed: 'Serrer {}' },
  },
  brake: {
    noun: noun('m', 'frein'),
    is: { released: agreeing('desserré', 'm'), set: agreeing('serré', 'm') },
    to: { released: 'Desserrer {}', set: 'Serrer {}' },
  },
  jack: {
    noun: noun('m', 'vérin'),
    is: { lowered: agreeing('abaissé', 'm'), raised: agreeing('levé', 'm') },
    to: { lowered: 'Abaisser {}', raised: 'Lever {}' },
  },
  prop: inPlace('f', 'béquille'),
  lock: inPlace('m', 'cadenas', 'cadenas'),
  tag: inPlace('f', 'étiquette'),
  barrier: inPlace('f', 'barrière'),
  'ground-wire': connected('m', 'câble de mise à la terre', 'câbles de mise à la terre'),
  lever: { noun: noun('m', 'levier'), ...onOrOff },
  handle: {
    noun: noun('f', 'poignée'),
    is: { stowed: agreeing('rentré', 'f'), pulled: agreeing('tiré', 'f') },
    to: { stowed: 'Rentrer {}', pulled: 'Tirer {}' },
  },
  pump: running('f', 'pompe'),
  fan: running('m', 'ventilateur'),
  motor: running('m', 'moteur électrique', 'moteurs électriques'),
  engine: {
    noun: noun('m', 'moteur'),
    is: { stopped: 'à l’arrêt', running: 'en marche' },
    to: { stopped: 'Arrêter {}', running: 'Démarrer {}' },
  },
  cart: running('m', 'groupe'),
  compressor: running('m', 'compresseur'),
  conveyor: running('m', 'convoyeur'),
  heater: {
    noun: noun('m', 'chauffage'),
    is: { off: 'à l’arrêt', on: 'en marche' },
    to: { off: 'Arrêter {}', on: 'Mettre en marche {}' },
  },
  light: { noun: noun('m', 'éclairage'), is: lit('m'), to: { off: 'Éteindre {}', on: 'Allumer {}' } },
  starter: {
    noun: noun('m', 'démarreur'),
    is: { off: agreeing('relâché', 'm'), cranking: agreeing('actionné', 'm') },
    to: { off: 'Relâcher {}', cranking: 'Actionner {}' },
  },
  worn: {
    noun: noun('m', 'équipement de protection', 'équipements de protection'),
    is: { away: agreeing('retiré', 'm'), on: agreeing('porté', 'm') },
    to: { away: 'Retirer {}', on: 'Mettre {}' },
  },
  test: {
    noun: noun('m', 'essai'),
    is: { due: 'à faire', passed: agreeing('réussi', 'm') },
    to: { due: 'Annuler {}', passed: 'Effectuer {}' },
  },
  lamp: { noun: noun('m', 'voyant'), is: lit('m') },
  needle: { noun: noun('f', 'aiguille'), is: level },
  'sight-glass': { noun: noun('m', 'voyant de niveau', 'voyants de niveau'), is: level },
  trip: {
    noun: noun('m', 'déclencheur'),
    is: { normal: agreeing('armé', 'm'), tripped: agreeing('déclenché', 'm') },
  },
  flag: { noun: noun('m', 'indicateur'), is: { away: agreeing('caché', 'm'), shown: 'visible' } },
};

// ---------------------------------------------------------------- the fixed words

export const french: FixedWords = {
  tag: 'fr',
  signal: { danger: 'DANGER', warning: 'AVERTISSEMENT', caution: 'ATTENTION', note: 'REMARQUE' },
  heading: {
    beforeYouStart: 'Avant de commencer',
    forTheWholeCard: 'Pour toute la fiche',
    steps: 'Étapes',
    whenACheckFails: 'Si une vérification échoue',
    ifYouStop: 'En cas d’arrêt',
    atTheEnd: 'État final de la machine',
    accepted: 'Écarts acceptés',
    sources: 'Sources',
    revisions: 'Suivi des révisions',
    record: 'Compte rendu des travaux',
    findings: 'Constats sur ce projet',
    overview: 'La machine en un coup d’œil',
    way: 'Le parcours de la fiche',
  },
  front: {
    number: 'Fiche',
    release: 'Diffusion',
    madeFrom: (digits, version) => `sources ${digits}, Cardwright ${version}`,
    signOff: { prepared: 'Établi par', checked: 'Vérifié par', approved: 'Approuvé par' },
    revision: 'Révision',
    date: 'Date',
    appliesTo: 'Applicable à',
    allMachines: 'Toutes les machines',
    purpose: 'But',
    crew: 'Équipe',
    role: 'Fonction',
    qualification: 'Qualification',
    name: 'Nom',
    time: 'Durée',
    timeOf: (least, most) => (most === undefined ? `au moins ${least}` : least === most ? least : `${least} à ${most}`),
    tools: 'Outillage',
    materials: 'Ingrédients',
    parts: 'Pièces',
    references: 'Documents de référence',
    does: 'Comprend',
    whenBegun: (states) => `Avant de la commencer : ${states}.`,
    none: 'Néant',
    standingCaution:
      'Les données d’entretien approuvées, les règles de votre organisme et les obligations de votre licence priment. Si cette fiche s’en écarte, arrêter les travaux et s’y conformer.',
    relies: 'Cette fiche compte sur les points suivants sans les vérifier. S’assurer de chacun.',
    atHand: 'Tout ce que cette fiche énumère comme outillage, pièces et ingrédients est à portée de main.',
    nothingRelied: 'Cette fiche vérifie ou établit tout ce sur quoi elle compte.',
    why: 'Raison',
    whyFrom: {
      rule: (name) => `la règle « ${name} »`,
      hazard: (name) => `le danger « ${name} »`,
      supply: (name) => `cette fiche a besoin ${de(name)}`,
    },
    rested: (label, rest) => `${label} : au repos depuis au moins ${rest}.`,
    draft: 'PROJET',
    draftMeaning:
      'Cette fiche contient des erreurs. Ne pas l’utiliser sur une machine. Les constats figurent à la fin.',
    checksLowered: (checks) =>
      `Des contrôles de cette fiche sont désactivés ou abaissés par les réglages (${checks}). Ne pas l’utiliser sur une machine.`,
    digest: (digits) => `Empreinte de cette fiche : ${digits}`,
    openWarnings: (count) => (count === 1 ? '1 avertissement non traité' : `${count} avertissements non traités`),
    page: (page, pages) => ['Page ', page, ' sur ', pages],
  },
  step: {
    step: (number) => `étape ${number}`,
    steps: (first, last) =>
      first === last ? `étape ${first}` : `étapes ${first} ${last === first + 1 ? 'et' : 'à'} ${last}`,
    only: (machines) => `Seulement pour ${machines}`,
    takes: (time) => `Durée : ${time}`,
    see: (reference) => `Voir : ${reference}`,
    check: (condition) => `Vérifier ${que(condition)}.`,
    checkQuestion: (question) => `Vérifier : ${question}`,
    ensure: (condition) => `S’assurer ${que(condition)}.`,
    ifItIsNot: 'Sinon',
    putRight: 'Remettre en ordre, puis le confirmer ici.',
    ifNot: 'Sinon',
    ifNotReached: 'Si ce n’est pas atteint',
    ifItNeverIs: 'Si cela n’arrive pas',
    read: (gauge) => `Relever ${gauge}`,
    workOut: (gauge, left, sign, right) => `Calculer ${gauge} : ${left} ${sign === '-' ? 'moins' : 'plus'} ${right}`,
    bringByRows: (gauge, time) => `Amener ${gauge} dans la limite applicable${within(time)} :`,
    bring: (gauge, bound, time) => `Amener ${gauge} à la valeur suivante${within(time)} : ${bound}`,
    mustBe: (bound) => `Valeur exigée : ${bound}`,
    dependsOn: (gauge) => `La limite dépend ${de(gauge)}`,
    when: (condition) => `quand ${condition}`,
    runFor: (command, _, time) => `${command} pendant ${time}.`,
    runUntil: (command, _, condition, time) => `${command}${atMostTime(time)} jusqu’au moment où ${condition}.`,
    meanwhile: 'Pendant ce temps :',
    noLongerThan: (time) => `Jamais plus de ${time}`,
    restAfter: (time) => `puis repos de ${time}`,
    timesThenRest: (count, time) => `Après ${count} mises en marche, repos de ${time}`,
    timesInWindow: (count, time) => `Au plus ${count} mises en marche en ${time}`,
    insideTheLimit: 'dans la limite applicable',
    watchReaches: (gauge, bound, time) => `Surveiller ${gauge}. Valeur à atteindre${within(time)} : ${bound}.`,
    watchStays: (gauge, bound) => `Surveiller ${gauge}. Valeur à tenir en permanence : ${bound}.`,
    wait: (time) => `Attendre ${time}.`,
    waitUntil: (condition, time) =>
      time === undefined
        ? `Attendre jusqu’au moment où ${condition}.`
        : `Attendre ${time} au plus, jusqu’au moment où ${condition}.`,
    atLeastTime: (time) => `au moins ${time}`,
    atMostTime: (time) => `${time} au plus`,
    record: (text) => `Noter : ${text}`,
    recordTable: (texts) => `Remplir le tableau : ${texts}`,
    tighten: (what, torque, _isRange, pattern) =>
      `Serrer ${what} au couple ${de(torque)}${pattern === undefined ? '' : `, ${pattern}`}`,
    toolNumber: 'Numéro de l’outil',
    dueDate: 'Date de validité',
    recordPart: (part) => `Noter la pièce montée : ${part}`,
    partNumber: 'Référence de la pièce',
    batch: 'Lot',
    expires: 'Date de péremption',
    goTo: (step, stage) => (stage === undefined ? `aller à l’étape ${step}` : `aller à l’étape ${step}, « ${stage} »`),
    goToEnd: (stage) => (stage === undefined ? 'aller à la fin de la fiche' : `aller à « ${stage} »`),
    goToUnknown: 'aller à une étape qui n’existe pas encore dans ce projet',
    stop: 'ARRÊTER.',
    doIfYouStop: 'Suivre « En cas d’arrêt ».',
    doStopSteps: (steps) => `Faire ${theSteps(steps)} (dernière page).`,
    thenDo: (sentence) => `Ensuite : ${sentence}`,
    finish: 'terminer et passer au compte rendu des travaux',
    sign: 'Signature',
    inspectedBy: 'Contrôlé par (autre personne que l’exécutant)',
    timeOfDay: 'Heure',
    yes: 'oui',
    no: 'non',
    reading: 'Relevé',
    value: 'Valeur',
    finding: 'Constat',
  },
  block: {
    if: (condition) => `Si ${condition} :`,
    otherwise: 'Sinon :',
    otherwiseIf: (condition) => `Sinon, si ${condition} :`,
    skip: (steps) => `Sinon, sauter ${theSteps(steps)}.`,
    mend: (step) => `Seulement si l’étape ${step} renvoie ici :`,
    repeatTimes: (steps, count) => `Effectuer ${theSteps(steps)} ${times(count)}.`,
    answeredYes: (question) => `la réponse à « ${question} » est oui`,
    repeatUntil: (steps, condition, count) =>
      count === 1
        ? `Effectuer ${theSteps(steps)} une fois. Vérifier ensuite ${que(condition)}.`
        : `Effectuer ${theSteps(steps)} ${times(count)} au plus, jusqu’au moment où ${condition}.`,
    theSteps: 'ceci',
    notSoAfter: (count) => (count === 1 ? 'Sinon' : `Si ce n’est toujours pas le cas après ${times(count)}`),
    done: 'Fait',
    timesDone: (count) => `Nombre de fois (sur ${count})`,
    together: 'En même temps :',
    choose: 'Effectuer l’une de ces actions :',
    forEach: 'Effectuer ceci pour chaque élément :',
    forEachValue: 'Effectuer ceci pour chaque valeur, l’une après l’autre :',
    item: 'Élément',
    value: 'Valeur',
    whatToDo: 'À faire',
    keep: (condition) => `D’ici à la fin de cette partie, vérifier avant chaque étape ${que(condition)}.`,
    do: (title, number) => (number === undefined ? title : `${title} (fiche ${number})`),
  },
  back: {
    where: 'Où',
    check: 'Ce qui est exigé',
    ifItFails: 'Sinon',
    because: 'Raison',
    deviation: 'Écart',
    acceptedBy: 'Accepté par',
    source: 'Source',
    comesFromIt: 'Ce qui en est tiré',
    noSource: 'Sans source',
    putBack: 'Remis en état par cette fiche :',
    left: 'Reste comme cette fiche l’a mis :',
    alteredAtStops: 'Après un arrêt, vérifier : peut en être encore ainsi.',
    wholeCard: 'toute la fiche',
    inFile: (file) => `dans ${file}`,
    workOrder: 'Ordre de travail',
    machine: 'Type et numéro de série de la machine',
    station: 'Lieu',
    workDone: 'Travaux effectués',
    dateCompleted: 'Date d’achèvement',
    doneBy: 'Effectué par (nom)',
    approvedBy: 'Remise en service approuvée par (signature)',
    certificate: 'Numéro et type de licence',
    remarks: 'Observations, relevés hors limites, étapes omises',
    changesSince: (revision) => `Modifications depuis la révision ${revision}`,
    noChanges: 'Aucune.',
    change: 'Modification',
    signature: 'Signature',
    aviationMeaning: 'Mentions exigées par 14 CFR 43.9. La signature n’approuve que les travaux décrits ici.',
    level: 'Niveau',
    error: 'Erreur',
    warning: 'Avertissement',
  },
  change: frenchChanges,
  picture: {
    scale: (gauge, from, to, bound) => `Échelle ${de(gauge)}, de ${from} à ${to}. Bon : ${bound}.`,
    duty: (item, duties) => `Marche et repos, ${item}. ${duties}.`,
    run: (longest) => (longest === undefined ? 'marche' : `marche, ${longest} au plus`),
    runs: (count) => `${count} mises en marche`,
    rest: (time) => `repos ${time}`,
    source: (node, when) => `Source : ${node}${when === undefined ? '' : `, quand ${when}`}.`,
    link: (from, to, when) => `De ${from} à ${to}${when === undefined ? '' : `, quand ${when}`}.`,
    flow: 'Sauf indication contraire sur le dessin, une vérification qui échoue arrête les travaux.',
    way: (from, when, to) => `De ${from}${when === undefined ? '' : `, ${when}`} : vers ${to}.`,
    rounds: times,
    afterRounds: () => 'ensuite',
    together: 'En même temps',
    allDone: 'Quand tout est fait',
    stop: 'Arrêt',
    finish: 'Fin',
  },
  workCopy: {
    open: 'Travailler avec cette fiche à l’écran',
    goOn: 'Reprendre les travaux',
    asPrinted: 'Afficher la fiche imprimée',
    done: 'Fait',
    doneAt: 'Fait à {time}',
    undo: 'Annuler la dernière saisie',
    undone: 'Annulé',
    stopNow: 'Arrêter les travaux',
    stopped: 'Les travaux ont été arrêtés.',
    leaveOut: 'Omettre',
    leftOut: 'Omis',
    yes: 'Oui',
    no: 'Non',
    passed: 'Conforme',
    failed: 'Non conforme',
    enter: 'Valider',
    reading: 'Relevé',
    unit: 'Unité',
    value: 'Valeur',
    notANumber: 'Saisir un nombre, par exemple 24,5.',
    understood: 'Compris : {value}',
    whichNumber: 'De quel nombre s’agit-il ?',
    scaleEnds: 'L’échelle se termine à {end} : relever à nouveau.',
    scaleBegins: 'L’échelle commence à {end} : relever à nouveau.',
    nameNeeded: 'Saisir le nom.',
    choiceNeeded: 'Choisir ce qui est le cas maintenant.',
    reasonForStop: 'Pourquoi les travaux ont-ils été arrêtés ?',
    from: '{where}, {time} : {value}',
    rowFrom: 'La limite est celle de {value} ({where}, {time}) : {limit}.',
    answeredFrom: '{answer} : cela découle du relevé. {from}.',
    workedOutFrom: '{value} = {parts}',
    inside: '{value} est dans la limite : {limit}.',
    outside: '{value} est HORS LIMITE : {limit}.',
    overDate: '{date} est DÉPASSÉ : cette date est passée.',
    otherTool: '{number} n’est aucun des outils notés avant le travail.',
    whichLimit: 'Lequel de ces cas s’applique maintenant ?',
    notSo: 'Ce n’est pas le cas.',
    goThere: 'Y aller',
    answerFirst: 'La fiche compte sur ce point. Y répondre d’abord : {what}',
    secondIsOther: 'La seconde personne ne peut pas être celle qui fait cette étape.',
    goOnAnyway: 'Continuer ici malgré tout',
    isFirm: 'Une règle ou un danger de cette fiche en dépend : les travaux ne peuvent pas continuer.',
    moreReason: 'Dire en quelques mots ce qui a été constaté et pourquoi on agit ainsi.',
    secondName: 'Nom d’une deuxième personne qui donne son accord',
    wentOn: 'Poursuivi malgré un écart : {reason} Avec l’accord de {name}.',
    wentOnUnchecked: 'Poursuivi sans vérification : {reason} Avec l’accord de {name}.',
    wentOnOver: 'Poursuivi malgré un écart',
    begin: 'Commencer',
    end: 'Terminer',
    running: 'En cours {time} sur {most}',
    release: 'Le temps est écoulé. Terminer maintenant.',
    tooLong: 'TROP LONG : terminer maintenant. Jamais plus de {limit}.',
    tooLongBy: 'trop long de {time}',
    itemTooLongBy: '{item} : trop long de {time}.',
    inState: '{item} : {time} sur {limit}',
    thisIsDone: 'C’est fait',
    ranOut: '{answer} : le temps prévu est écoulé.',
    tooLate: 'Trop tard de {time}.',
    ranFor: 'A duré {time}',
    restLeft: 'Repos, {item} : encore {time}',
    restOver: 'Repos terminé : {item}.',
    shut: 'Bloqué jusqu’à la fin du repos',
    beginAnyway: 'Commencer avant la fin du repos',
    wait: 'Démarrer le chronomètre',
    waitLeft: 'Attendre encore {time}',
    waitOver: 'L’attente est terminée.',
    waited: 'Attente de {time}',
    endEarly: 'Terminer maintenant',
    timeLeft: 'encore {time}',
    timeOver: 'Le temps prévu est écoulé.',
    didReach: 'Atteint',
    didNotReach: 'Non atteint',
    sign: 'Signer',
    name: 'Nom',
    signedBy: 'Signé par {name}',
    inspector: 'Nom du contrôleur',
    workBy: 'Nom de la personne qui a effectué les travaux',
    inspectedBy: 'Contrôlé par {name} ; travaux effectués par {by}',
    sameName: 'La personne qui a effectué les travaux ne peut pas les contrôler : une autre personne signe ici.',
    outOfOrder: 'Ce n’est pas l’étape suivante. Pourquoi la faire maintenant ?',
    missingLines: 'Cette étape n’est pas entièrement remplie. Pourquoi continuer ?',
    reason: 'Raison',
    record: 'Enregistrer la raison et continuer',
    cancel: 'Retour',
    choose: 'Effectuer celle-ci',
    round: 'Tour {round} sur {times}',
    now: 'Maintenant',
    finish: 'Terminer et établir le compte rendu',
    finished: 'Les travaux sont terminés.',
    finishMeaning: 'Remplir le compte rendu, puis l’imprimer ou l’enregistrer dans un fichier.',
    headMeaning: 'À remplir avant la première étape. Cela figure sur chaque page du compte rendu.',
    machineType: 'Type de machine',
    headMissing: 'Saisir la machine et chaque nom.',
    onePerson:
      '{name} figure à plus d’un rôle. Est-ce la même personne ? Appuyer alors encore une fois sur « {button} ».',
    onePersonDoes: '{name} tient plus d’un rôle.',
    headDone: 'Commencer les travaux',
    save: 'Enregistrer le compte rendu dans un fichier',
    load: 'Ouvrir un compte rendu enregistré',
    loaded: 'Le compte rendu est ouvert.',
    altered:
      'Cette fiche a été modifiée après son édition : son empreinte est {own}, et elle indique {stated}. Ne pas travailler avec elle. Se procurer la fiche de nouveau.',
    cannotCompare:
      'Ce navigateur ne peut pas dire si cette fiche a été modifiée après son édition. La comparer à la fiche imprimée, ou l’ouvrir dans un autre navigateur.',
    loadForeign: 'C’est le compte rendu d’une autre fiche : {card}. Rien n’a été modifié.',
    loadRevision:
      'C’est un compte rendu de la révision {other} de cette fiche, et ceci est la révision {own}. Rien n’a été modifié.',
    loadChangedCard:
      'Ce compte rendu appartient à un autre état de cette fiche : elle a été changée sans nouvelle révision. Rien n’a été modifié.',
    doubtChanged: 'Il a été modifié à la main après avoir été enregistré.',
    doubtOtherCopy: 'Il a été fait avec une copie modifiée de cette fiche.',
    doubtUnchecked: 'On ne peut pas savoir s’il a été modifié à la main après avoir été enregistré.',
    loadOver: 'Il y a déjà {count} saisies sur cet appareil, la dernière du {time}.',
    loadInPlace: 'Le mettre à leur place, et les garder',
    loadAnyway: 'Le charger quand même',
    readIn: 'L’ajouter à celles-ci',
    takeUpBefore: 'Revenir aux {count} saisies d’avant',
    nothingNew: 'Toutes les saisies de ce fichier sont déjà ici.',
    wasReadIn:
      'Repris d’un autre compte rendu : {count} saisies. Points sur lesquels les deux se contredisent : {conflicts}.',
    conflicts: 'Deux comptes rendus du même travail',
    conflictsMeaning: 'Dire ce qui compte. Le reste demeure au compte rendu, barré.',
    entriesHere: 'Saisi ici',
    entriesReadIn: 'Repris',
    thisCounts: 'Ceci compte',
    whoDecides: 'Nom de qui décide',
    settled: 'Deux comptes rendus se contredisaient : {name} a décidé ce qui compte.',
    settleFirst: 'Décider d’abord ce qui compte là où les deux comptes rendus se contredisent.',
    recordMade: 'Le compte rendu a été établi.',
    recordDigest: 'Empreinte de ce compte rendu : {digest}',
    loadBroken: 'Ce fichier n’est pas un compte rendu de ce programme, ou il est endommagé. Rien n’a été modifié.',
    print: 'Imprimer',
    startAgain: 'Commencer un nouveau compte rendu',
    startAgainMeaning: 'Les saisies seront effacées de cet appareil. Sont-elles imprimées ou enregistrées ?',
    recordTitle: 'Compte rendu des travaux, tel que saisi',
    time: 'Heure',
    where: 'Où',
    what: 'Quoi',
    storageFailed:
      'Cet appareil ne conserve pas les saisies. Continuer à travailler, mais ne pas fermer cette page avant d’avoir enregistré ou imprimé le compte rendu.',
    otherTab: 'La même fiche a été modifiée dans une autre fenêtre. Ceci est l’état le plus récent.',
    keep: 'Maintenir',
    labelled: '{label}: {text}',
    keepBroken: 'Ce n’est plus le cas',
    clockBack:
      'L’horloge de cet appareil a été retardée. Les temps de marche et de repos peuvent être faux : utiliser une autre horloge.',
    handOver: 'Passer le travail',
    handsOver: 'Passe le travail (nom)',
    takesOver: 'Reprend le travail (nom)',
    mustKnow: 'Ce que la personne suivante doit savoir',
    notHere: 'Personne de ce nom n’effectue ces travaux. Passe la main l’une de ces personnes : {names}.',
    otherTakesOver: 'C’est une autre personne qui reprend : écrire un autre nom.',
    handedOver: 'Travail passé par {from} à {to}.',
    handOverPage: 'Passage du travail',
    comesNext: 'Ce qui vient ensuite',
    isOpen: 'Ce qui reste ouvert',
    nothingOpen: 'Rien ne reste ouvert.',
    stillRuns: 'Commencé à {time}, pas terminé.',
    stateNow: 'État actuel de la machine',
    noStateYet: 'Cette fiche n’a encore rien réglé ni vérifié.',
    since: '({where}, {time})',
    mayHaveChanged: 'Cela a pu changer de soi-même depuis.',
    signature: 'Signature',
  },
  grammar,
  kinds,
  typeset,
};
