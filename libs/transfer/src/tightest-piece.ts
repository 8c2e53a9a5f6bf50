import { type HosePiece, nameOfPiece } from './hose-path.ts';
import { type Fluid, resistanceOf } from './liquid-flow.ts';
import { areaOf } from './path-resistance.ts';
import type { Limit, LimitCode } from './notes.ts';

const CODES: Readonly<Record<NonNullable<HosePiece['part']>, LimitCode>> = {
  hose: 'hose',
  'end fitting': 'end-fitting',
  'valve passage': 'valve-passage',
  'valve core': 'valve-core',
};

/** The piece that takes the largest part of the path's pressure loss. */
export function tightestPiece(path: readonly HosePiece[], massFlow_kg_s: number, fluid: Fluid): Limit {
  const lossOf = (piece: HosePiece): number =>
    resistanceOf(piece, massFlow_kg_s, fluid.viscosity_Pa_s) / areaOf(piece.bore_m) ** 2;
  const tightest = path.reduce((worst, piece) => (lossOf(piece) > lossOf(worst) ? piece : worst));
  return { code: CODES[tightest.part ?? 'hose'], text: nameOfPiece(tightest) };
}
