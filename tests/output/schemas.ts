import { Ajv2020 } from 'ajv/dist/2020.js';
import { filesBelow, textOf } from '../structure/source-files.js';

/** What is wrong with `value` by the JSON Schema of that name in shared/schema; empty when nothing is. */
export function schemaFaults(name: string, value: unknown): string[] {
  const ajv = new Ajv2020({ allErrors: true, strict: true, strictRequired: false, allowUnionTypes: true });
  const schemas = filesBelow('shared/schema', /\.json$/).map(
    (path) => JSON.parse(textOf(path)) as { $id: string },
  );
  for (const schema of schemas) ajv.addSchema(schema);
  const validate = ajv.getSchema(`urn:plystep:schema:${name}:1`)!;
  if (validate(value)) return [];
  return (validate.errors ?? []).map((error) => `${error.instancePath} ${error.message ?? ''}`);
}
