import { z } from 'zod';
import { type DocumentKind, documentKinds, documentSchemas, urnOf } from '../documents/kinds.ts';

/** JSON Schema 2020-12 of one kind of document; `$id` is the URN that documents of the kind state as `$schema`. */
export function jsonSchemaOf(kind: DocumentKind): Record<string, unknown> {
  const generated = z.toJSONSchema(documentSchemas[kind], { target: 'draft-2020-12', io: 'input' });
  const { $schema, ...rest } = oneTypeEach(generated) as Record<string, unknown>;
  return { $schema, $id: urnOf(kind), title: `Dwellset ${kind} document`, ...rest };
}

/** Strict validators refuse a list of types in one place; a choice between schemas says the same. */
function oneTypeEach(part: unknown): unknown {
  if (Array.isArray(part)) return part.map(oneTypeEach);
  if (typeof part !== 'object' || part === null) return part;
  const { type, ...rest } = Object.fromEntries(
    Object.entries(part).map(([key, value]) => [key, key === 'type' ? value : oneTypeEach(value)]),
  );
  if (Array.isArray(type)) return { ...rest, anyOf: type.map((one: unknown) => ({ type: one })) };
  return type === undefined ? rest : { type: isSchema(type) ? oneTypeEach(type) : type, ...rest };
}

/** A property of a document may itself be called `type`: then its schema stands here, and not a word. */
const isSchema = (type: unknown): boolean => typeof type === 'object';

/** Every kind, by the name of its file in `schemas/`. */
export function jsonSchemaFiles(): ReadonlyMap<string, Record<string, unknown>> {
  return new Map(documentKinds.map((kind) => [`${kind}.schema.json`, jsonSchemaOf(kind)]));
}
