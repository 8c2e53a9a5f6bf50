import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

/** Engines whose formulas must say where they come from. */
const PHYSICS = ['refrigerants', 'transfer', 'vacuum'];
/** Engines whose exported functions must at least say what they answer. */
const OTHERS = [
  'rules',
  'estimating',
  'costing',
  'learning',
  'scheduling',
  'planning',
  'chance',
  'calendar',
  'quantities',
];

interface ExportedFunction {
  readonly file: string;
  readonly name: string;
  readonly comment: string;
  readonly isShort: boolean;
}

function exportedFunctions(lib: string): ExportedFunction[] {
  const folder = join('libs', lib, 'src');
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts') && !entry.name.endsWith('.test.ts'))
    .map((entry) => join(entry.parentPath, entry.name));
  return files.flatMap((file) => {
    const text = readFileSync(file, 'utf8');
    const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, true);
    return source.statements.flatMap((statement) => {
      if (!ts.isFunctionDeclaration(statement) || !statement.name) return [];
      const isExported = statement.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
      const comment = ts
        .getJSDocCommentsAndTags(statement)
        .map((node) => node.getFullText())
        .join('\n');
      const lines =
        source.getLineAndCharacterOfPosition(statement.end).line -
        source.getLineAndCharacterOfPosition(statement.getStart()).line;
      return isExported ? [{ file, name: statement.name.text, comment, isShort: lines <= 6 }] : [];
    });
  });
}

/** Names that an index file gives to other libs. */
function publicNames(lib: string): (name: string, file: string) => boolean {
  const index = readFileSync(join('libs', lib, 'src', 'index.ts'), 'utf8');
  return (name, file) => {
    const base = file.split(/[/\\]/).at(-1)!;
    return (
      new RegExp(`export \\* from '\\./[^']*${base.replaceAll('.', '\\.')}'`).test(index) ||
      new RegExp(`\\b${name}\\b`).test(index)
    );
  };
}

describe('what other libs may call says what it answers', () => {
  it.each([...PHYSICS, ...OTHERS])('%s: every public function has a doc comment', (lib) => {
    const isPublic = publicNames(lib);
    const silent = exportedFunctions(lib).filter(
      ({ name, file, comment, isShort }) => isPublic(name, file) && comment === '' && !isShort,
    );
    expect(silent.map(({ file, name }) => `${file}: ${name}`)).toEqual([]);
  });

  it.each(PHYSICS)('%s: every public formula names source, units and errors', (lib) => {
    const isPublic = publicNames(lib);
    const poor = exportedFunctions(lib)
      .filter(({ name, file, isShort }) => isPublic(name, file) && !isShort && !name.endsWith('Field'))
      .filter(({ comment }) => !/@source/.test(comment) || !/@returns/.test(comment))
      .map(({ file, name }) => `${file}: ${name}`);
    expect(poor).toEqual([]);
  });
});
