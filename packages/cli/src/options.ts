import { parseArgs } from 'node:util';
import { CannotRun } from './cannotRun.ts';

export interface OptionShape {
  readonly type: 'string' | 'boolean';
  readonly multiple?: boolean;
  /** How the value is named in the help. */
  readonly value?: string;
  /** The only values that are taken. */
  readonly oneOf?: readonly string[];
}

export interface Given {
  readonly arguments: readonly string[];
  has(option: string): boolean;
  one(option: string): string | undefined;
  all(option: string): readonly string[];
}

/** Reads a command's options; everything that is not exactly understood is refused, nothing is guessed. */
export function readOptions(
  command: string,
  argv: readonly string[],
  shapes: Readonly<Record<string, OptionShape>>,
  atMost = Number.POSITIVE_INFINITY,
): Given {
  const { tokens } = parseArgs({
    args: [...argv],
    options: Object.fromEntries(
      Object.entries(shapes).map(([name, { type, multiple }]) => [
        name,
        { type, multiple: multiple ?? false },
      ]),
    ),
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const refuse = (what: string): never => {
    throw new CannotRun(`${what}; see \`dwellset help ${command}\``);
  };
  const values = new Map<string, string[]>();
  const positionals: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') positionals.push(token.value);
    if (token.kind !== 'option') continue;
    const shape = Object.hasOwn(shapes, token.name) ? shapes[token.name] : undefined;
    if (!shape) return refuse(`unknown option \`${token.rawName}\``);
    const known = values.get(token.name) ?? [];
    if (known.length > 0 && !shape.multiple) refuse(`\`${token.rawName}\` is given twice`);
    if (shape.type === 'boolean') {
      if (token.value !== undefined) refuse(`\`${token.rawName}\` takes no value`);
      values.set(token.name, ['true']);
      continue;
    }
    // A value that looks like an option is a forgotten value.
    if (
      token.value === undefined ||
      token.value === '' ||
      (!token.inlineValue && token.value.startsWith('-'))
    ) {
      return refuse(`\`${token.rawName}\` needs a value`);
    }
    if (shape.oneOf && !shape.oneOf.includes(token.value)) {
      refuse(`\`${token.rawName} ${token.value}\` is not known, expected one of: ${shape.oneOf.join(', ')}`);
    }
    values.set(token.name, [...known, token.value]);
  }
  const surplus = positionals[atMost];
  if (surplus !== undefined) refuse(`\`${surplus}\` is one argument too many`);
  return {
    arguments: positionals,
    has: (option) => values.has(option),
    one: (option) => values.get(option)?.[0],
    all: (option) => values.get(option) ?? [],
  };
}
