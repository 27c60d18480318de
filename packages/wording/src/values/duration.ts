import { listed } from '../words.ts';

/** `P1D` → 1 day, `PT2H` → 2 hours. */
export function durationWords(duration: string): string {
  const [, days, hours, minutes] = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?$/.exec(duration) ?? [];
  const parts: readonly (readonly [string | undefined, string])[] = [
    [days, 'day'],
    [hours, 'hour'],
    [minutes, 'minute'],
  ];
  const said = parts.flatMap(([count, unit]) =>
    count === undefined ? [] : [`${Number(count)} ${unit}${Number(count) === 1 ? '' : 's'}`],
  );
  return said.length === 0 ? duration : listed(said, 'and');
}
