import { z } from 'zod';
import { unitRecord } from '../contract/unit-record';

/** The parts of JSON Schema (draft 2020-12) that the record's own schema uses. */
export interface SchemaNode {
  readonly type?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: SchemaNode | false;
  readonly items?: SchemaNode | false;
  readonly prefixItems?: readonly SchemaNode[];
  readonly anyOf?: readonly SchemaNode[];
  readonly oneOf?: readonly SchemaNode[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
}

/** The record's shape as JSON Schema, made from its validator; `unit.schema.json` is this, written down. @rule BK11 */
export function recordSchema(): SchemaNode {
  return {
    ...z.toJSONSchema(unitRecord, { io: 'output' }),
    title: "A unit's swap record",
    $comment:
      'Names given twice and names of windows, trials or lamps that are not there are refused beyond this schema.',
  } as SchemaNode;
}
