import type { Code } from './codes.ts';
import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { operandsOf } from './references.ts';

/** A reference from one name to another, and where it stands. */
interface Edge {
  readonly to: string;
  readonly at: Cursor;
}

/** Reports each loop once, at the reference that closes it. */
export function reportLoops(
  edges: ReadonlyMap<string, readonly Edge[]>,
  code: Code,
  what: string,
  { find }: Pick<Context, 'find'>,
): void {
  const done = new Set<string>();
  const walk = (name: string, trail: readonly string[]): void => {
    if (done.has(name)) return;
    for (const { to, at } of edges.get(name) ?? []) {
      const start = [...trail, name].indexOf(to);
      if (start < 0) {
        walk(to, [...trail, name]);
        continue;
      }
      const loop = [...trail, name].slice(start);
      const message = `${what} lead back to themselves: ${[...loop, to].map((n) => `\`${n}\``).join(', ')}`;
      find.report(code, at, { message, received: to });
    }
    done.add(name);
  };
  for (const name of edges.keys()) walk(name, []);
}

export function checkConditionCycles(context: Context): void {
  const edges = new Map([...context.conditions].map(([name, node]) => [name, namedIn(node)] as const));
  reportLoops(edges, 'condition-cycle', `named conditions of ${context.owner}`, context);
}

/** Names of conditions that stand in a condition. */
function namedIn(node: Cursor): readonly Edge[] {
  const inside = [...node.items, ...node.entries.map(([, value]) => value)].flatMap(namedIn);
  const name = node.at('condition');
  return name.text === undefined ? inside : [{ to: skeleton(name.text), at: name }, ...inside];
}

/** `own`: the facts whose loops are reported here, so that a loop in the dictionary is not told once a set. */
export function checkDerivationCycles(context: Context, own: Iterable<string>): void {
  const edges = new Map<string, readonly Edge[]>();
  for (const id of own) {
    const operands = operandsOf(context.facts.get(id)!.entry.at('from'));
    edges.set(
      id,
      operands.map((at) => ({ to: skeleton(at.text!), at })),
    );
  }
  reportLoops(edges, 'derivation-cycle', 'derived facts', context);
}

export function checkFoldingCycles(rules: ReadonlyMap<string, Cursor>, context: Context): void {
  const edges = new Map(
    [...rules].map(([id, root]) => {
      const folded = root.at('supersedes').items.filter(({ text }) => text !== undefined);
      return [id, folded.map((at) => ({ to: skeleton(at.text!), at }))] as const;
    }),
  );
  reportLoops(edges, 'folding-cycle', `rules of ${context.owner} fold each other and`, context);
}
