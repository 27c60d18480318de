import type { EvidenceShown, EvidenceStatus } from '@dwellset/core';

/**
 * How a statement is known, in words. `where` names the text that reported it, or what it was computed from,
 * where that is known.
 */
export function statusWords(status: EvidenceStatus, where?: string): string {
  switch (status) {
    case 'read':
      return 'read in the source';
    case 'reported':
      return where === undefined ? 'as reported, not read in the source' : `as reported in ${where}`;
    case 'computed':
      return `computed from ${where ?? 'the source'}`;
    case 'practice':
      return 'common practice, no source';
    case 'memory':
      return 'from memory, not checked';
  }
}

/** Many editions name their year, or are the year itself. */
function issueWords(year: number | undefined, edition: string | undefined): string {
  if (year === undefined || edition?.includes(String(year))) return edition ?? '';
  return edition === undefined ? String(year) : `${year} (${edition})`;
}

/** Body, title, year, place, grade and status of one source, in one line. */
export function sourceWords(item: EvidenceShown['from'][number]): string {
  const named = [item.body, item.title, issueWords(item.year, item.edition), item.locator]
    .filter((part) => part !== '')
    .join(', ');
  const grade = item.grade === 'ungraded' ? 'ungraded' : `grade ${item.grade}`;
  const strength = item.strength === undefined ? '' : ` (${item.strength})`;
  const note = item.note === undefined ? '' : ` (${item.note})`;
  return `${named} · ${grade}${strength} · ${statusWords(item.status)}${note}`;
}
