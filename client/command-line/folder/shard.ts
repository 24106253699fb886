/** One part of the files for each of many machines. */
export interface Shard {
  readonly number: number;
  readonly of: number;
}

/** Every so manyth, as neighbours in a folder are often alike: each part then has its share of the long ones. */
export function partOf<Some>(all: readonly Some[], { number, of }: Shard): Some[] {
  return all.filter((_, index) => index % of === number - 1);
}
