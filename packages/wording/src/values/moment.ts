const formats = new Map<string, Intl.DateTimeFormat>();

/** Only the parts are taken, never the locale's order or punctuation. */
function format(zone: string): Intl.DateTimeFormat {
  let found = formats.get(zone);
  if (!found) {
    found = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      calendar: 'iso8601',
      numberingSystem: 'latn',
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
    });
    formats.set(zone, found);
  }
  return found;
}

const INSTANT = /^\d{4}-\d{2}-\d{2}T/;

export const isInstant = (text: string): boolean => INSTANT.test(text);

/** `YYYY-MM-DD HH:MM` on the clock of the ward; a text that is no instant, or an unknown zone, stays as it is. */
export function momentWords(text: string, zone: string): string {
  const instant = Date.parse(text);
  if (!isInstant(text) || Number.isNaN(instant)) return text;
  try {
    const parts = new Map(
      format(zone)
        .formatToParts(instant)
        .map(({ type, value }) => [type, value]),
    );
    const get = (type: Intl.DateTimeFormatPartTypes) => parts.get(type) ?? '';
    return `${get('year').padStart(4, '0')}-${get('month')}-${get('day')} ${get('hour')}:${get('minute')}`;
  } catch {
    return text;
  }
}
