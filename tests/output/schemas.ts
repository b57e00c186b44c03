import { Ajv2020 } from 'ajv/dist/2020.js';
import { textOf } from '../structure/source-files.js';

/** What is wrong with `value` by the JSON Schema of that name in shared/schema; empty when nothing is. */
export function schemaFaults(name: string, value: unknown): string[] {
  const ajv = new Ajv2020({ allErrors: true, strict: true, strictRequired: false, allowUnionTypes: true });
  const validate = ajv.compile(JSON.parse(textOf(`shared/schema/${name}.json`)) as object);
  if (validate(value)) return [];
  return (validate.errors ?? []).map((error) => `${error.instancePath} ${error.message ?? ''}`);
}
