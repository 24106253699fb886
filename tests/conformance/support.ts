/** A small machine and an empty card, so that a test of one sentence of the language shows little but that sentence. */
import { type CheckOptions, check, findingsOf } from '../support/check.ts';

/** In a file of its own: what a card does not use of it is then no finding. */
const machine = `
item drain, vent : valve normally closed
item tap : valve "the tap"
item gland : valve "the gland" normally closed verify
item lid : door "the lid" normally closed
item lamp-1 : lamp "the lamp"
item motor-1 : motor "the motor" normally stopped
item plug-1 : plug "the plug" normally apart
item breaker-1 : breaker "the breaker" normally closed
gauge pressure "oil pressure" in psi { reads 0 to 100 by 2   limit normal 20 psi to 80 psi }
gauge level "tank level" in %
`;

const head = 'number "T-1"   revision "A"   crew hand "Hand"';

export interface Given {
  /** Declarations in the file of the card. */
  readonly given?: string;
  /** The fields of the card, where those of every test will not do. */
  readonly fields?: string;
}

/** A card of these statements, in a file that uses the machine. */
export function card(body: string, { given = '', fields = head }: Given = {}): string {
  return `use "machine.card"\n${given}\ncard tried "Tried" {\n  ${fields}\n${body}\n}\n`;
}

const files = { 'machine.card': machine };

/** Expects exactly the findings that are marked in the statements, or in what is given. */
export function expectMarked(body: string, given: Given = {}, options: CheckOptions = {}) {
  return check(card(body, given), { ...options, files: { ...files, ...options.files } });
}

/** The codes that a card of these statements gives, in order. */
export function codesOf(body: string, given: Given = {}, options: CheckOptions = {}): string[] {
  return findingsIn(body, given, options).map(({ code }) => code);
}

export function findingsIn(body: string, given: Given = {}, options: CheckOptions = {}) {
  return findingsOf(card(body, given), { ...options, files: { ...files, ...options.files } });
}

/** The message of the one finding of a card of these statements. */
export function messageOf(body: string, given: Given = {}): string {
  const findings = findingsIn(body, given);
  const [only] = findings;
  if (!only || findings.length > 1) throw new Error(`Expected one finding, got ${findings.map(({ code }) => code)}.`);
  return only.message;
}
