/**
 * The units of the language, once. Every factor is an exact fraction, built from the defining constants of NIST SP 811
 * (2008 edition), appendix B: the inch (0.0254 m), the avoirdupois pound (0.453 592 37 kg), the US gallon (231 cubic inches),
 * the nautical mile (1852 m) and the standard acceleration of free fall (9.806 65 m/s2).
 */
import { type Exact, exact } from './exact.ts';

/** What a unit measures. Units of one dimension can be compared with one another, others never. */
export type Dimension =
  | 'pressure'
  | 'change of pressure'
  | 'temperature'
  | 'speed of rotation'
  | 'percentage'
  | 'ratio'
  | 'volume'
  | 'volume flow'
  | 'mass'
  | 'mass flow'
  | 'concentration'
  | 'acidity'
  | 'conductivity'
  | 'torque'
  | 'force'
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'frequency'
  | 'power'
  | 'sound level'
  | 'noise reduction'
  | 'length'
  | 'speed'
  | 'turn'
  | 'time';

export type UnitSystem = 'metric' | 'us';

export interface Unit {
  /** As the formatter writes it: `degC`, `N.m`. */
  readonly symbol: string;
  /** As a reader sees it: `°C`, `N·m`. */
  readonly printed: string;
  /** Other spellings that are read. */
  readonly spellings: readonly string[];
  readonly dimension: Dimension;
  /** One of this unit in the base unit of its dimension. */
  readonly factor: Exact;
  /** The unit in which its dimension is reckoned: nothing has to be converted. */
  readonly isBase: boolean;
  /** What is added after the factor to come to the base unit; only temperatures have one. */
  readonly offset?: Exact;
  /** Undefined where both systems use the unit. */
  readonly system?: UnitSystem;
  /** Symbols of the units in which a reader of the other system knows the same measure, the most usual first. */
  readonly counterparts: readonly string[];
}

/** A number with its unit, as written: nothing is converted yet. */
export interface Quantity {
  readonly value: Exact;
  readonly unit: Unit;
  /** Decimal places that were written, where they are more than the value needs: 1 for `24.0 V`. */
  readonly places?: number;
}

const gravity = exact('9.80665');
const inch = exact('0.0254');
const foot = inch.mul(12);
const pound = exact('0.45359237');
const poundForce = pound.mul(gravity);
const poundPerSquareInch = poundForce.div(inch.mul(inch));
const kilogramPerSquareCentimetre = gravity.mul(10_000);
const litre = exact(1, 1000);
const gallon = inch.pow(3).mul(231);
const minute = exact(60);
const hour = exact(3600);
/** A difference of one degree Fahrenheit, in kelvin. */
const fahrenheit = exact(5, 9);

/**
 * The conventional inch of mercury: 25.4 mm of a liquid of 13 595.1 kg/m3 at standard gravity, 3386.388 640 341 Pa. SP 811 prints
 * it as 3.386 389 E+03. Tables that start from a millimetre of mercury measured at another temperature differ by 3 parts in a million.
 */
const inchOfMercury = inch.mul(exact('13595.1')).mul(gravity);

/** The mechanical horsepower of 550 foot-pounds of force in a second. */
const horsepower = poundForce.mul(foot).mul(550);

interface Row {
  readonly factor?: Exact;
  readonly offset?: Exact;
  readonly printed?: string;
  readonly also?: readonly string[];
  readonly metric?: readonly string[];
  readonly us?: readonly string[];
}

/** A row with `us` counterparts belongs to the metric system, one with `metric` counterparts to the US one. */
const table: { readonly [Key in Dimension]: Readonly<Record<string, Row>> } = {
  // pascal
  pressure: {
    psi: { factor: poundPerSquareInch, also: ['psig', 'PSI', 'lbf/in2', 'lb/in2'], metric: ['kPa', 'bar'] },
    kPa: { factor: exact(1000), also: ['kpa', 'KPA'], us: ['psi'] },
    bar: { factor: exact(100_000), also: ['bars'], us: ['psi'] },
    inHg: { factor: inchOfMercury, also: ['inhg', 'in-Hg'], metric: ['hPa', 'kPa'] },
    Pa: { us: ['psi'] },
    hPa: { factor: exact(100), us: ['inHg'] },
    mbar: { factor: exact(100), us: ['inHg'] },
    MPa: { factor: exact(1_000_000), us: ['psi'] },
    'kgf/cm2': {
      factor: kilogramPerSquareCentimetre,
      printed: 'kgf/cm²',
      also: ['kgf/cm²', 'kg/cm2', 'kg/cm²'],
      us: ['psi'],
    },
  },
  // pascal a second
  'change of pressure': {
    'psi/min': { factor: poundPerSquareInch.div(minute), also: ['psig/min'], metric: ['kPa/min', 'bar/min'] },
    'kPa/min': { factor: exact(1000).div(minute), us: ['psi/min'] },
    'bar/min': { factor: exact(100_000).div(minute), us: ['psi/min'] },
    'mbar/min': { factor: exact(100).div(minute), us: ['psi/min'] },
  },
  // kelvin
  temperature: {
    degC: {
      offset: exact('273.15'),
      printed: '°C',
      also: ['°C', 'C', 'deg-C', 'degc', '℃'],
      us: ['degF'],
    },
    degF: {
      factor: fahrenheit,
      offset: exact('459.67').mul(fahrenheit),
      printed: '°F',
      also: ['°F', 'F', 'deg-F', 'degf', '℉'],
      metric: ['degC'],
    },
    K: { also: ['kelvin'], us: ['degF'] },
  },
  // turns a minute
  'speed of rotation': { rpm: { also: ['r/min', 'RPM', 'rev/min'] } },
  // a hundredth
  percentage: {
    '%': { also: ['percent', 'pct'] },
    ppm: { factor: exact(1, 10_000), also: ['PPM'] },
    ppb: { factor: exact(1, 10_000_000), also: ['PPB'] },
  },
  // one
  ratio: { ratio: { also: ['ratios'] } },
  // cubic metre
  volume: {
    L: { factor: litre, also: ['l', 'litre', 'litres', 'liter', 'liters'], us: ['gal', 'qt'] },
    gal: { factor: gallon, also: ['gals', 'gallon', 'gallons', 'USgal'], metric: ['L'] },
    qt: { factor: gallon.div(4), also: ['qts', 'quart', 'quarts'], metric: ['L'] },
    mL: { factor: litre.div(1000), also: ['ml', 'cm3', 'cc'], us: ['floz'] },
    floz: { factor: gallon.div(128), printed: 'fl oz', also: ['fl-oz'], metric: ['mL'] },
  },
  // cubic metre a second
  'volume flow': {
    'L/min': { factor: litre.div(minute), also: ['l/min', 'lpm', 'LPM'], us: ['gal/min'] },
    'gal/min': { factor: gallon.div(minute), also: ['gpm', 'GPM'], metric: ['L/min'] },
    'L/h': { factor: litre.div(hour), also: ['l/h', 'L/hr', 'l/hr'], us: ['gal/h'] },
    'gal/h': { factor: gallon.div(hour), also: ['gph', 'GPH', 'gal/hr'], metric: ['L/h'] },
  },
  // kilogram
  mass: {
    kg: { also: ['kgs'], us: ['lb'] },
    lb: { factor: pound, also: ['lbs', 'lbm'], metric: ['kg'] },
    g: { factor: exact(1, 1000), us: ['oz'] },
    oz: { factor: pound.div(16), metric: ['g'] },
  },
  // kilogram a second
  'mass flow': {
    'kg/h': { factor: exact(1).div(hour), also: ['kg/hr'], us: ['lb/h'] },
    'lb/h': { factor: pound.div(hour), also: ['lb/hr', 'lbs/h', 'lbs/hr', 'pph', 'PPH'], metric: ['kg/h'] },
    'lb/min': { factor: pound.div(minute), also: ['lbs/min'], metric: ['kg/min'] },
    'kg/min': { factor: exact(1).div(minute), us: ['lb/min'] },
  },
  // kilogram in a cubic metre
  concentration: {
    'g/L': { also: ['g/l'] },
    'mg/L': { factor: exact(1, 1000), also: ['mg/l'] },
    'ug/L': { factor: exact(1, 1_000_000), printed: 'µg/L', also: ['ug/l', 'µg/L', 'μg/L', 'µg/l', 'μg/l'] },
  },
  // the negative logarithm of the activity of hydrogen ions
  acidity: { pH: { also: ['ph', 'PH'] } },
  // siemens a metre
  conductivity: {
    'uS/cm': { factor: exact(1, 10_000), printed: 'µS/cm', also: ['µS/cm', 'μS/cm'] },
    'mS/cm': { factor: exact(1, 10) },
  },
  // newton metre
  torque: {
    'N.m': { printed: 'N·m', also: ['N·m', 'N⋅m', 'Nm', 'N-m'], us: ['lbf.ft', 'lbf.in'] },
    'kgf.m': { factor: gravity, printed: 'kgf·m', also: ['kgf·m', 'kgf⋅m', 'kgf-m', 'kg-m', 'kgm'], us: ['lbf.ft'] },
    'lbf.ft': {
      factor: poundForce.mul(foot),
      printed: 'lbf·ft',
      metric: ['N.m'],
      also: [
        'lbf·ft',
        'lbf⋅ft',
        'lbf-ft',
        'ft-lbf',
        'ft.lbf',
        'ft·lbf',
        'lb-ft',
        'lb.ft',
        'lb·ft',
        'ft-lb',
        'ft.lb',
        'ft·lb',
        'ft-lbs',
      ],
    },
    'lbf.in': {
      factor: poundForce.mul(inch),
      printed: 'lbf·in',
      metric: ['N.m'],
      also: [
        'lbf·in',
        'lbf⋅in',
        'lbf-in',
        'in-lbf',
        'in.lbf',
        'in·lbf',
        'lb-in',
        'lb.in',
        'lb·in',
        'in-lb',
        'in.lb',
        'in·lb',
        'in-lbs',
      ],
    },
  },
  // newton
  force: {
    N: { us: ['lbf'] },
    kN: { factor: exact(1000), us: ['lbf'] },
    lbf: { factor: poundForce, metric: ['N'] },
  },
  // volt
  voltage: {
    V: { also: ['v', 'volt', 'volts', 'VDC', 'VAC'] },
    mV: { factor: exact(1, 1000) },
    kV: { factor: exact(1000) },
  },
  // ampere
  current: {
    A: { also: ['amp', 'amps', 'Amp', 'Amps'] },
    mA: { factor: exact(1, 1000) },
  },
  // ohm; U+2126 is the ohm sign, which looks like the letter
  resistance: {
    ohm: { printed: 'Ω', also: ['ohms', 'Ω', '\u2126'] },
    kohm: { factor: exact(1000), printed: 'kΩ', also: ['kΩ', 'k\u2126'] },
    Mohm: {
      factor: exact(1_000_000),
      printed: 'MΩ',
      also: ['MΩ', 'M\u2126', 'megohm', 'megohms'],
    },
  },
  // hertz
  frequency: { Hz: { also: ['hz', 'HZ'] }, kHz: { factor: exact(1000) } },
  // watt
  power: {
    kW: { factor: exact(1000), also: ['kw', 'KW'], us: ['hp'] },
    W: { us: ['hp'] },
    hp: { factor: horsepower, also: ['HP'], metric: ['kW'] },
  },
  // decibel, A-weighted, of a sound pressure of 20 micropascal
  'sound level': { dBA: { printed: 'dB(A)', also: ['dba', 'dB-A'] } },
  // decibel
  'noise reduction': { dB: { also: ['db'] } },
  // metre
  length: {
    mm: { factor: exact(1, 1000), us: ['in'] },
    in: { factor: inch, also: ['inch', 'inches'], metric: ['mm'] },
    m: { also: ['metre', 'metres', 'meter', 'meters'], us: ['ft'] },
    ft: { factor: foot, also: ['foot', 'feet'], metric: ['m'] },
    cm: { factor: exact(1, 100), us: ['in'] },
  },
  // metre a second
  speed: {
    kt: { factor: exact(1852).div(hour), also: ['kts', 'knot', 'knots'] },
    'm/s': { us: ['kt'] },
    'km/h': { factor: exact(1000).div(hour), us: ['kt'] },
  },
  // turn
  turn: { turn: { also: ['turns', 'rev', 'revs'] }, deg: { factor: exact(1, 360), printed: '°', also: ['°'] } },
  // second
  time: {
    s: { also: ['sec', 'secs', 'second', 'seconds'] },
    min: { factor: minute, also: ['mins', 'minute', 'minutes'] },
    h: { factor: hour, also: ['hr', 'hrs', 'hour', 'hours'] },
  },
};

export const units: readonly Unit[] = Object.entries(table).flatMap(([dimension, rows]) =>
  Object.entries(rows).map(([symbol, row]) => toUnit(dimension as Dimension, symbol, row)),
);

function toUnit(dimension: Dimension, symbol: string, row: Row): Unit {
  const base: Unit = {
    symbol,
    printed: row.printed ?? symbol,
    spellings: row.also ?? [],
    dimension,
    factor: row.factor ?? exact(1),
    isBase: row.factor === undefined && row.offset === undefined,
    counterparts: row.metric ?? row.us ?? [],
  };
  const system = row.us ? 'metric' : row.metric ? 'us' : undefined;
  return { ...base, ...(row.offset && { offset: row.offset }), ...(system && { system }) };
}

const unitOf = new Map<string, Unit>(
  units.flatMap((unit) => [unit.symbol, ...unit.spellings].map((spelling): [string, Unit] => [spelling, unit])),
);

/** Every spelling that is read, symbols first. */
export const unitSpellings: readonly string[] = [...unitOf.keys()];

/** The unit of a symbol or of one of its other spellings. Capitals count: `mV` is no `MV`. */
export function findUnit(text: string): Unit | undefined {
  return unitOf.get(text);
}

/** The unit of a symbol that is in the table. */
export function unit(symbol: string): Unit {
  const found = unitOf.get(symbol);
  if (found === undefined) throw new Error(`no unit ${symbol} in the table`);
  return found;
}

/** The unit in which a reader of this system wants the same measure a second time; undefined where it is already the reader's own. */
export function counterpart(of: Unit, system: UnitSystem): Unit | undefined {
  const symbol = of.counterparts[0];
  return of.system === system || symbol === undefined ? undefined : unit(symbol);
}
