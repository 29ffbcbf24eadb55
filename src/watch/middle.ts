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
