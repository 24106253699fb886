/**
 * What stands on the plate of a motor, as duties: S1, S2 and S3 of IEC 60034-1, and the starts of NEMA MG 10, table 2-3.
 * S3 is read as the standard defines it, one run and one rest in each cycle. Its cycle is 10 min where none is given (from memory).
 */
import type * as syntax from '../../grammar/syntax.ts';
import type { Duty, Seconds } from '../../shared/card.ts';
import { type Exact, exact, smaller } from '../../shared/exact.ts';
import type { Place } from '../../shared/text.ts';
import { placeOf, type Scope } from './names.ts';

interface Given {
  readonly state: number;
  /** The rest that stands after the plate. */
  readonly rest: Seconds | undefined;
  readonly place: Place;
}

const number = '([0-9]+(?:\\.[0-9]+)?)';
const shortTime = new RegExp(`^S2 ${number} ?min$`);
const periodic = new RegExp(`^S3 ${number} ?%(?:,? ${number} ?min)?$`);
const starts = new RegExp(`^MG 10,? ${number} ?hp,? ([246])-pole(?:,? ${number} ?lb\\.ft2)?$`);

const hour = exact(3600);
const usualCycle = '10';

export function bindPlate(scope: Scope, plate: syntax.Text, given: Given): readonly Duty[] {
  const text = plate.value.trim();
  const unknown = (reason: 'form' | 'rest'): readonly Duty[] => {
    scope.work.problems.add({ type: 'unknown-plate', place: placeOf(scope, plate), text, reason });
    return [];
  };
  if (text === 'S1') return [];
  const [, longest] = shortTime.exec(text) ?? [];
  if (longest !== undefined) {
    return given.rest ? [{ type: 'longest', ...given, limit: minutes(longest), rest: given.rest }] : unknown('rest');
  }
  const [, percent, cycle = usualCycle] = periodic.exec(text) ?? [];
  if (percent !== undefined && Number(percent) < 100) return [periodicDuty(percent, cycle, given)];
  const [, power = '', poles = '', load] = starts.exec(text) ?? [];
  const row = startsTable.find(([horsepower]) => Number(horsepower) === Number(power));
  const column = row?.slice(1)[Number(poles) / 2 - 1] as Column | undefined;
  return column ? startDuties(column, load, given) : unknown('form');
}

function minutes(written: string): Exact {
  return exact(written).mul(60);
}

function periodicDuty(percent: string, cycle: string, { state, place }: Given): Duty {
  const limit = minutes(cycle).mul(exact(percent)).div(100);
  return { type: 'longest', state, limit, rest: minutes(cycle).sub(limit), place };
}

/** The starts in an hour are the smaller of A and B / (load inertia); between a stop and a start at least C seconds pass. */
function startDuties([a, b, c]: Column, load: string | undefined, { state, place }: Given): readonly Duty[] {
  const perHour = load === undefined ? exact(a) : smaller(exact(a), exact(b).div(exact(load)));
  const whole = perHour.floor();
  const often: Duty =
    whole.n === 0n
      ? { type: 'times-in-window', state, times: 1, window: hour.div(perHour), place }
      : { type: 'times-in-window', state, times: Number(whole.n), window: hour, place };
  return [often, { type: 'times-then-rest', state, times: 1, rest: exact(c), place }];
}

type Column = readonly [startsPerHour: string, startsTimesInertia: string, secondsOff: string];

/** Horsepower, then 2, 4 and 6 poles: NEMA MG 10, table 2-3, designs A and B. Inertia in lb.ft2. */
const startsTable: readonly (readonly [horsepower: string, two: Column, four: Column, six: Column])[] = [
  ['1', ['15', '1.2', '75'], ['30', '5.8', '38'], ['34', '15', '33']],
  ['1.5', ['12.9', '1.8', '76'], ['25.7', '8.6', '38'], ['29.1', '23', '34']],
  ['2', ['11.5', '2.4', '77'], ['23', '11', '39'], ['26.1', '30', '35']],
  ['3', ['9.9', '3.5', '80'], ['19.8', '17', '40'], ['22.4', '44', '36']],
  ['5', ['8.1', '5.7', '83'], ['16.3', '27', '42'], ['18.4', '71', '37']],
  ['7.5', ['7.0', '8.3', '88'], ['13.9', '39', '44'], ['15.8', '104', '39']],
  ['10', ['6.2', '11', '92'], ['12.5', '51', '46'], ['14.2', '137', '41']],
  ['15', ['5.4', '16', '100'], ['10.7', '75', '50'], ['12.1', '200', '44']],
  ['20', ['4.8', '21', '110'], ['9.6', '99', '55'], ['10.9', '262', '48']],
  ['25', ['4.4', '26', '115'], ['8.8', '122', '58'], ['10.0', '324', '51']],
  ['30', ['4.1', '31', '120'], ['8.2', '144', '60'], ['9.3', '384', '53']],
  ['40', ['3.7', '40', '130'], ['7.4', '189', '65'], ['8.4', '503', '57']],
  ['50', ['3.4', '49', '145'], ['6.8', '232', '72'], ['7.7', '620', '64']],
  ['60', ['3.2', '58', '170'], ['6.3', '275', '85'], ['7.2', '735', '75']],
  ['75', ['2.9', '71', '180'], ['5.8', '338', '90'], ['6.6', '904', '79']],
  ['100', ['2.6', '92', '220'], ['5.2', '441', '110'], ['5.9', '1181', '97']],
  ['125', ['2.4', '113', '275'], ['4.8', '542', '140'], ['5.4', '1452', '120']],
  ['150', ['2.2', '133', '320'], ['4.5', '640', '160'], ['5.1', '1719', '140']],
  ['200', ['2.0', '172', '600'], ['4.0', '831', '300'], ['4.5', '2238', '265']],
  ['250', ['1.8', '210', '1000'], ['3.7', '1017', '500'], ['4.2', '2744', '440']],
];
