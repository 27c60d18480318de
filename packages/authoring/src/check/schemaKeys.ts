import type { z } from 'zod';

type Schema = z.core.$ZodType;

/** The keys that the objects of a schema may have at a path; those of every branch of a union. */
export function keysAt(schema: Schema, path: readonly PropertyKey[]): readonly string[] {
  const reached = path.reduce<readonly Schema[]>(
    (schemas, key) => schemas.flatMap(alternatives).flatMap((inner) => step(inner, key)),
    [schema],
  );
  const keys = reached.flatMap(alternatives).flatMap((inner) => Object.keys(shapeOf(inner) ?? {}));
  return [...new Set(keys)];
}

const defOf = (schema: Schema): z.core.$ZodTypes['_zod']['def'] => (schema as z.core.$ZodTypes)._zod.def;

function shapeOf(schema: Schema): Readonly<Record<string, Schema>> | undefined {
  const def = defOf(schema);
  return def.type === 'object' ? def.shape : undefined;
}

/** Unwraps what may be absent and opens unions. */
function alternatives(schema: Schema): readonly Schema[] {
  const def = defOf(schema);
  if (def.type === 'optional') return alternatives(def.innerType);
  if (def.type === 'union') return def.options.flatMap(alternatives);
  return [schema];
}

function step(schema: Schema, key: PropertyKey): readonly Schema[] {
  const def = defOf(schema);
  if (def.type === 'object') {
    const next = def.shape[String(key)];
    return next === undefined ? [] : [next];
  }
  if (def.type === 'array') return [def.element];
  if (def.type === 'record') return [def.valueType];
  if (def.type === 'tuple') return def.items.slice(Number(key), Number(key) + 1);
  return [];
}
