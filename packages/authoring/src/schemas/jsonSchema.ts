import { z } from 'zod';
import { type DocumentKind, documentKinds, documentSchemas, urnOf } from '../documents/kinds.ts';

/** JSON Schema 2020-12 of one kind of document; `$id` is the URN that documents of the kind state as `$schema`. */
export function jsonSchemaOf(kind: DocumentKind): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(documentSchemas[kind], {
    target: 'draft-2020-12',
    io: 'input',
  });
  return { $schema, $id: urnOf(kind), title: `Dwellset ${kind} document`, ...rest };
}

/** Every kind, by the name of its file in `schemas/`. */
export function jsonSchemaFiles(): ReadonlyMap<string, Record<string, unknown>> {
  return new Map(documentKinds.map((kind) => [`${kind}.schema.json`, jsonSchemaOf(kind)]));
}
