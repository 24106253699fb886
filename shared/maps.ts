/** What a map has under a key; where it has nothing there, what `make` gives is put in. */
export function getOrInsert<Key, Value extends NonNullable<unknown>>(
  map: { get(key: Key): Value | undefined; set(key: Key, value: Value): unknown },
  key: Key,
  make: () => NoInfer<Value>,
): Value {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}
