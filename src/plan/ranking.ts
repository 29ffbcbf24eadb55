/** A figure things are ranked by, the least first, and how far it may differ between equals. */
export interface Key<T> {
  code: string;
  /** The figure; what is not known is Infinity. */
  of: (entry: T) => number;
  /** The figure as it is shown. */
  shown: (entry: T) => number | string | null;
  equalWithin: number;
  basis: string;
}

/** A thing in its place. */
export interface Placed<T> {
  entry: T;
  /** 1 the best; equals share a place. */
  rank: number;
  tied: boolean;
  /** What decides against those next to it: before it, level with it, after it. */
  against: { other: T; stands: "before" | "after" | "level"; key: Key<T> | null }[];
}

const level = <T>(key: Key<T>, a: T, b: T): boolean => {
  const [x, y] = [key.of(a), key.of(b)];
  return x === y || Math.abs(x - y) <= key.equalWithin;
};

/** A class of equals, and the key that set it behind the class before it; null for the first. */
interface Class<T> {
  entries: T[];
  by: Key<T> | null;
}

/** Classes of equals, best first: by the first key, each class then by the next. A class holds what is level with its best. */
function classes<T>(
  entries: readonly T[],
  keys: readonly Key<T>[],
  by: Key<T> | null = null,
): Class<T>[] {
  const [key, ...rest] = keys;
  if (key === undefined || entries.length < 2) return [{ entries: [...entries], by }];
  const found: Class<T>[] = [];
  let left = [...entries];
  while (left.length > 0) {
    const best = left.reduce((a, b) => (key.of(b) < key.of(a) ? b : a));
    const equals = left.filter((e) => level(key, best, e));
    found.push(...classes(equals, rest, found.length === 0 ? by : key));
    left = left.filter((e) => !equals.includes(e));
  }
  return found;
}

/** Things in order by keys that count one after the other; ties stay ties. */
export function ranked<T>(entries: readonly T[], keys: readonly Key<T>[]): Placed<T>[] {
  const groups = classes(entries, keys);
  let rank = 1;
  return groups.flatMap(({ entries: group, by }, i) => {
    const before = groups[i - 1]?.entries[0];
    const after = groups[i + 1];
    const here = rank;
    rank += group.length;
    return group.map((entry): Placed<T> => ({
      entry,
      rank: here,
      tied: group.length > 1,
      against: [
        ...(before === undefined ? [] : [{ other: before, stands: "after" as const, key: by }]),
        ...group
          .filter((o) => o !== entry)
          .map((other) => ({ other, stands: "level" as const, key: null })),
        ...(after === undefined
          ? []
          : [{ other: after.entries[0]!, stands: "before" as const, key: after.by }]),
      ],
    }));
  });
}
