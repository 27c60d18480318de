import { z } from 'zod';
import { constant } from './condition.ts';
import { band, code, evidenceId, factId, kebab, note, text, version } from './terms.ts';

const cautious = z.enum(['lower', 'higher', 'neither']).meta({ id: 'cautious-side' });

/** A published position: a value that a source stands for. */
const position = z
  .strictObject({ value: constant, evidence: z.array(evidenceId), note })
  .meta({ id: 'position' });

/** A named local choice; the value in force is `default` until an amendment sets another. */
export const parameter = z
  .strictObject({
    id: factId,
    type: z.enum(['boolean', 'number', 'code', 'codes']),
    unit: text.exactOptional(),
    step: z.number().positive().exactOptional(),
    range: band.exactOptional(),
    codes: kebab.exactOptional(),
    title: text,
    default: constant,
    cautious,
    positions: z.array(position),
    local: z.boolean().exactOptional(),
    note,
  })
  .meta({ id: 'parameter' });

const cellValue = z.union([z.number(), z.string(), z.boolean(), z.null()]).meta({ id: 'cell-value' });

const cell = z
  .strictObject({
    value: cellValue,
    range: band.exactOptional(),
    positions: z.array(position).exactOptional(),
    evidence: z.array(evidenceId).exactOptional(),
  })
  .meta({ id: 'table-cell' });

const column = z
  .strictObject({
    type: z.enum(['number', 'code', 'boolean', 'text']),
    unit: text.exactOptional(),
    codes: kebab.exactOptional(),
    cautious: cautious.exactOptional(),
  })
  .meta({ id: 'table-column' });

/** Local choices keyed by a code list, cell by cell. */
export const table = z
  .strictObject({
    id: factId,
    key: kebab,
    title: text,
    columns: z.record(kebab, column),
    rows: z.record(code, z.record(kebab, cell)),
    otherwise: z.record(kebab, cellValue).exactOptional(),
    note,
  })
  .meta({ id: 'table' });

/** `choices/<topic>.json`: parameters and tables that hold for the whole policy. */
export const choicesDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:choices:1'),
  note,
  id: kebab,
  version,
  title: text,
  parameters: z.array(parameter),
  tables: z.array(table),
});
