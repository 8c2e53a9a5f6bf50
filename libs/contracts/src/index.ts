export { type FileProblem, formatProblem } from './file-problem.ts';
export { FILE_SCHEMAS, jsonSchemas, readFirm, type SourceFile } from './read-firm.ts';
