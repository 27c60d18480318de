const FARTHEST = 2;

/** The candidate within edit distance 2, the nearest first; of equals the first stands. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = FARTHEST + 1;
  for (const candidate of candidates) {
    if (candidate === word || Math.abs(candidate.length - word.length) >= least) continue;
    const far = distance(word, candidate);
    // A word of three letters is within two edits of too many others.
    if (far < least && far < Math.max(word.length, candidate.length) / 2) [best, least] = [candidate, far];
  }
  return best;
}

/** `did you mean …`, ready for a diagnostic. */
export function didYouMean(word: string, candidates: Iterable<string>): { hint?: string } {
  const found = nearest(word, candidates);
  return found === undefined ? {} : { hint: `did you mean \`${found}\`` };
}

/** Edits that lead from one word to the other: a letter added, left out, changed, or two neighbours swapped. */
function distance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, index) => index)];
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, rows[i - 2]![j - 2]! + 1);
      }
      row.push(least);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}
