import { plainJson } from './plainJson.ts';
import { parseSource, type Source } from './source.ts';

/** As `parseSource`. Where nothing is wrong hardly anybody asks for a position: they are worked out when somebody does. */
export function readSource(path: string, text: string): Source {
  const value = plainJson(text);
  if (value === undefined) return parseSource(path, text);
  let parsed: Source | undefined;
  const full = (): Source => {
    parsed ??= parseSource(path, text);
    return parsed;
  };
  return {
    path,
    text,
    value,
    problems: [],
    locate: (pointer, part) => full().locate(pointer, part),
    locateWithin: (pointer, start, end, part) => full().locateWithin(pointer, start, end, part),
  };
}
