import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { jsonSchemas } from '@brimline/contracts';
import { format } from 'prettier';

const FOLDER = join('sample-jobs', 'schema');

/** Writes the published JSON Schemas of the input files. */
export async function main(): Promise<number> {
  for (const [name, schema] of Object.entries(jsonSchemas())) {
    await writeFile(
      join(FOLDER, name),
      await format(JSON.stringify(schema), { parser: 'json', printWidth: 110 }),
    );
  }
  return 0;
}
