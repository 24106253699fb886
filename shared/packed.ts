/**
 * Data that stands in each exported card, written small: the names of an object's parts once for each sort of object, and once
 * what occurs again. Everything is a list that begins with what it is; all that is no list is itself.
 */

/** A list; what is shared, by its index; from here on an object, by the index of its sort. */
const list = 0;
const shared = 1;
const firstSort = 2;

type Packed = string | number | boolean | null | readonly Packed[];

export interface PackedData {
  /** Of each sort of object its `type`, where it has one, and the names of its other parts. */
  readonly sorts: readonly (readonly [type: string | null, ...names: string[]])[];
  readonly shared: readonly Packed[];
  readonly data: Packed;
}

/** Of whatever JSON holds: `unpacked` gives the same back. */
export function packed(value: unknown): PackedData {
  const sorts = new Map<string, number>();
  const whole = asLists(JSON.parse(JSON.stringify(value)), sorts);
  const again = occurringAgain(whole);
  const table: Packed[] = [];
  const places = new Map<string, number>();
  const placeOf = (key: string, one: Packed): number => {
    const known = places.get(key);
    if (known !== undefined) return known;
    const place = table.push(null) - 1;
    places.set(key, place);
    table[place] = inside(one);
    return place;
  };
  const written = (one: Packed): Packed => {
    const key = JSON.stringify(one);
    return again.has(key) ? [shared, placeOf(key, one)] : inside(one);
  };
  const inside = (one: Packed): Packed => (Array.isArray(one) ? one.map(written) : one);
  const data = written(whole);
  return { sorts: [...sorts.keys()].map((names) => JSON.parse(names)), shared: table, data };
}

function asLists(value: unknown, sorts: Map<string, number>): Packed {
  if (typeof value !== 'object' || value === null) return value as Packed;
  if (Array.isArray(value)) return [list, ...value.map((one) => asLists(one, sorts))];
  const { type, ...others } = value as { readonly type?: unknown };
  const isSort = typeof type === 'string';
  const parts = isSort ? others : value;
  const names = JSON.stringify([isSort ? type : null, ...Object.keys(parts)]);
  const sort = sorts.get(names) ?? sorts.size;
  sorts.set(names, sort);
  return [firstSort + sort, ...Object.values(parts).map((one) => asLists(one, sorts))];
}

/** A reference to what is shared is about as long as this. */
const longestReference = 7;

/** As JSON: what is longer than a reference and occurs twice, except inside of what does. */
function occurringAgain(whole: Packed): ReadonlySet<string> {
  const seen = new Set<string>();
  const again = new Set<string>();
  const visit = (one: Packed): void => {
    const key = JSON.stringify(one);
    if (seen.has(key) && key.length > longestReference) again.add(key);
    else if (Array.isArray(one)) one.forEach(visit);
    seen.add(key);
  };
  visit(whole);
  return again;
}

export function unpacked({ sorts, shared: table, data }: PackedData): unknown {
  const open = (one: Packed): unknown => {
    if (!Array.isArray(one)) return one;
    const [what, ...parts] = one;
    if (what === shared) return open(table[parts[0]] as Packed);
    const values = parts.map(open);
    if (what === list) return values;
    const [type, ...names] = sorts[what - firstSort] as PackedData['sorts'][number];
    return { ...(type !== null && { type }), ...Object.fromEntries(names.map((name, at) => [name, values[at]])) };
  };
  return open(data);
}
