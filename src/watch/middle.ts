/**
 * Middle of the first `n` numbers of `room`, which it reorders; of an even count the mean of the two
 * middle ones. By Hoare's selection, so that half an hour of blocks costs a fraction of a sort.
 *
 * @source C. A. R. Hoare, Algorithm 65: Find, Communications of the ACM 4 (1961)
 */
export function middleOf(room: Float64Array, n: number): number {
  const k = n >> 1;
  let left = 0;
  let right = n - 1;
  while (left < right) {
    const pivot = room[(left + right) >> 1]!;
    let i = left;
    let j = right;
    while (i <= j) {
      while (room[i]! < pivot) i++;
      while (pivot < room[j]!) j--;
      if (i > j) break;
      const kept = room[i]!;
      room[i++] = room[j]!;
      room[j--] = kept;
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  const upper = room[k]!;
  if (n % 2 === 1) return upper;
  let lower = room[0]!;
  for (let i = 1; i < k; i++) if (room[i]! > lower) lower = room[i]!;
  return 0.5 * (lower + upper);
}

/** Ranks off its guess from which {@link middleNear} leaves the search to {@link middleOf}. */
const FAR_RANKS = 6;

/**
 * The same as {@link middleOf} to the bit, sooner where `guess` lies near the middle: what lies under
 * the guess goes to the front, and the few ranks from there to the middle are taken one by one.
 */
export function middleNear(room: Float64Array, n: number, guess: number): number {
  let under = 0;
  for (let i = 0; i < n; i++) {
    const v = room[i]!;
    if (v < guess) {
      room[i] = room[under]!;
      room[under++] = v;
    }
  }
  const off = (n >> 1) - under;
  if (off > FAR_RANKS || off < -FAR_RANKS) return middleOf(room, n);
  let upper: number;
  if (off >= 0) {
    for (let r = under; r < under + off; r++) leastToFront(room, r, n);
    upper = leastToFront(room, under + off, n);
    if (n % 2 === 1) return upper;
    const lower = off > 0 ? room[under + off - 1]! : greatestToEnd(room, under);
    return 0.5 * (lower + upper);
  }
  let end = under;
  for (; end > (n >> 1) + 1; end--) greatestToEnd(room, end);
  upper = greatestToEnd(room, end);
  if (n % 2 === 1) return upper;
  return 0.5 * (greatestToEnd(room, end - 1) + upper);
}

/** Put the least of `room[from..to)` at `from`. */
function leastToFront(room: Float64Array, from: number, to: number): number {
  let at = from;
  let least = room[from]!;
  for (let i = from + 1; i < to; i++)
    if (room[i]! < least) {
      least = room[i]!;
      at = i;
    }
  room[at] = room[from]!;
  room[from] = least;
  return least;
}

/** Put the greatest of `room[0..to)` at its end. */
function greatestToEnd(room: Float64Array, to: number): number {
  let at = to - 1;
  let most = room[at]!;
  for (let i = 0; i < to - 1; i++)
    if (room[i]! > most) {
      most = room[i]!;
      at = i;
    }
  room[at] = room[to - 1]!;
  room[to - 1] = most;
  return most;
}
