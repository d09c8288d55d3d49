// Writes assets/schema/plan-file.schema.json from the validator: node app/build/make-schema.mjs
// A test makes it again and compares, so a change of the validator without this step is noticed.
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { toJsonSchema } from '@valibot/to-json-schema';
import { runnerImport } from 'vite';

const TITLE = 'A plan file of Hallpace';
const ABOUT =
  'A class on paper and the moves it brings along. The reader also checks what a schema cannot say: ids used once, ' +
  'rounds that exist, the seconds of a count, a lower option for each circuit move, and that every move is known.';

/**
 * The text of the JSON Schema. Patterns are meant with the flag u, as JSON Schema says.
 * @param {import('valibot').GenericSchema} planFileSchema
 * @param {Record<string, import('valibot').GenericSchema>} definitions schemas to be named and referred to
 * @returns {string}
 */
export function schemaText(planFileSchema, definitions) {
  const schema = toJsonSchema(planFileSchema, {
    target: 'draft-2020-12',
    typeMode: 'output',
    definitions,
    overrideAction: ({ valibotAction, jsonSchema }) =>
      valibotAction.type === 'regex' ? { ...jsonSchema, pattern: sourceOf(valibotAction) } : undefined,
  });
  const { $schema, $defs, ...rest } = schema;
  return `${JSON.stringify({ $schema, title: TITLE, description: ABOUT, ...rest, $defs }, null, 2)}\n`;
}

/** @param {object} action */
function sourceOf(action) {
  const { requirement } = /** @type {{ requirement: RegExp }} */ (action);
  return requirement.source;
}

async function main() {
  const top = new URL('../../', import.meta.url);
  const from = (/** @type {string} */ path) => runnerImport(fileURLToPath(new URL(path, top)));
  const { module: file } = await from('src/exchange/plan-file.ts');
  const target = fileURLToPath(new URL('assets/schema/plan-file.schema.json', top));
  await mkdir(dirname(target), { recursive: true });
  await writeFile(target, schemaText(file.planFileSchema, file.planFileDefinitions));
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) await main();
