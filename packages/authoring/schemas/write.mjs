// Writes the JSON Schemas beside this file from the built package; `npm run format` afterwards.
import { writeFileSync } from 'node:fs';
import { jsonSchemaFiles } from '../dist/index.mjs';

for (const [name, schema] of jsonSchemaFiles()) {
  writeFileSync(new URL(name, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);
}
