import fc from 'fast-check';
import { refrigerant } from '@brimline/refrigerants';
import { describe, expect, it } from 'vitest';
import { directTransfer } from './direct-transfer.ts';
import { hosePath } from './hose-path.ts';
import { type PushPullInput, pushPullState, pushPullTransfer } from './push-pull.ts';
import { LIQUID_UTILISATION } from './utilisation.ts';

const LB_MIN = 0.45359237 / 60;
const PSI = 6894.757;
const LB = 0.45359237;

function hose(bore_mm: number, fitting_mm: number, valve_mm: number, cores = 0, length_m = 3) {
  return hosePath(
    {
      bore_m: bore_mm / 1000,
      length_m,
      fittingBore_m: fitting_mm / 1000,
      valveBore_m: valve_mm / 1000,
      roughness_m: 1e-5,
    },
    { coresLeftIn: cores },
  );
}

const machine = (lb_min: number) => ({
  vapourRate_kg_s: lb_min * LB_MIN,
  directLiquidRate_kg_s: 7.5 * LB_MIN,
  ratingRefrigerant: 'R-134a',
  finalVacuum_Pa: 20_000,
  cooler_W_K: 100,
});

function reference(changes: Partial<PushPullInput> = {}): PushPullInput {
  return {
    refrigerant: refrigerant('R-134a'),
    temperature_K: 297.15,
    machines: [machine(0.5)],
    path: hose(9.5, 7.5, 7),
    coolerBypassed: true,
    ...changes,
  };
}

const flow = (changes: Partial<PushPullInput> = {}): number =>
  pushPullState(reference(changes)).massFlow_kg_s / LB_MIN;

describe('push-pull', () => {
  // All rows: computed independently with scipy (fsolve on the same balances, other property code).
  it.each([
    ['reference case', {}, 13.68],
    ['1/2 in full bore', { path: hose(12.7, 10.3, 9.5) }, 16.3],
    ['3/4 in full bore', { path: hose(19, 15.9, 14) }, 17.8],
    ['source 2 m lower', { head_m: -2 }, 11.61],
    ['source 2 m higher', { head_m: 2 }, 15.9],
    ['machine of 0.25 lb/min', { machines: [machine(0.25)] }, 8.0],
    ['machine of 1.0 lb/min', { machines: [machine(1)] }, 21.3],
    ['machine of 3.0 lb/min', { machines: [machine(3)] }, 37.6],
    ['source conductance 30 W/K', { sourceConductance_W_K: 30 }, 16.0],
    ['source conductance 1000 W/K', { sourceConductance_W_K: 1000 }, 13.1],
    ['cooler of 100 W/K left in at 17 degC', { coolerBypassed: false, coolerTemperature_K: 290.15 }, 10.63],
    ['all at 10 degC', { temperature_K: 283.15 }, 12.2],
    ['all at 32 degC', { temperature_K: 305.15 }, 14.3],
    ['R-22', { refrigerant: refrigerant('R-22') }, 15.2],
    ['R-123', { refrigerant: refrigerant('R-123') }, 6.2],
    ['R-1233zd(E)', { refrigerant: refrigerant('R-1233zd(E)') }, 6.9],
    ['R-410A', { refrigerant: refrigerant('R-410A') }, 14.7],
  ] as const)('%s', (_, changes, expected) => {
    expect(Math.abs(flow(changes as Partial<PushPullInput>) / expected - 1)).toBeLessThan(0.03);
  });

  it('balances at 4.05 psi with 78 % of the vapour displacing liquid', () => {
    // Computed independently with scipy.
    const state = pushPullState(reference());
    expect(Math.abs(state.pressureDifference_Pa / PSI / 4.052 - 1)).toBeLessThan(0.06);
    expect(state.displacingShare).toBeCloseTo(0.78, 1);
  });

  it('meets the rules of thumb of the trade: common practice, no source', () => {
    const pushPull = 240 / (flow() * LIQUID_UTILISATION);
    const direct =
      (240 * LB) /
      (directTransfer({ ...reference(), path: hose(9.5, 7.5, 7) }).massFlow_kg_s * LIQUID_UTILISATION) /
      60;
    expect(pushPull).toBeGreaterThan(25);
    expect(pushPull).toBeLessThan(35);
    expect(direct).toBeGreaterThan(45);
    expect(direct).toBeLessThan(61);
    expect(pushPull / direct).toBeGreaterThan(0.45);
    expect(pushPull / direct).toBeLessThan(0.65);
  });

  it('names the piece that limits it', () => {
    expect(
      pushPullTransfer(reference({ path: hose(4.8, 3.6, 3.24, 1), machines: [machine(3)] })).limitedBy.code,
    ).toBe('valve-core');
    expect(pushPullTransfer(reference({ path: hose(25.4, 22.2, 19) })).limitedBy.code).toBe(
      'machine-vapour-rate',
    );
  });

  it('never gains from a narrower or longer hose, a core, or a cooler, nor loses from a stronger machine', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 25, noNaN: true }),
        fc.double({ min: 1, max: 15, noNaN: true }),
        fc.double({ min: 0.2, max: 6, noNaN: true }),
        fc.constantFrom('R-134a', 'R-22', 'R-410A', 'R-513A', 'R-407C', 'R-1233zd(E)', 'R-123'),
        fc.double({ min: 278, max: 308, noNaN: true }),
        (bore, length, rate, name, temperature_K) => {
          const at = (
            bore_mm: number,
            length_m: number,
            lb_min: number,
            cores: number,
            bypassed = true,
          ): number =>
            flow({
              refrigerant: refrigerant(name),
              temperature_K,
              machines: [machine(lb_min)],
              path: hose(bore_mm, bore_mm * 0.8, bore_mm * 0.74, cores, length_m),
              coolerBypassed: bypassed,
            });
          const slack = 1 + 1e-4;
          const base = at(bore, length, rate, 0);
          expect(base).toBeGreaterThan(0);
          expect(at(bore * 1.1, length, rate, 0) * slack).toBeGreaterThanOrEqual(base);
          expect(at(bore, length * 1.5, rate, 0)).toBeLessThanOrEqual(base * slack);
          expect(at(bore, length, rate, 1)).toBeLessThanOrEqual(base * slack);
          expect(at(bore, length, rate * 1.2, 0) * slack).toBeGreaterThanOrEqual(base);
          expect(at(bore, length, rate, 0, false)).toBeLessThanOrEqual(base * slack);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('approaches what vapour displaces without loss when hose and source lose nothing', () => {
    // Ceiling m_rated rhoL/rhoV times the superheat factor: conservation of volume; 19.28 computed independently.
    const wide = flow({ path: hose(60, 60, 60), sourceConductance_W_K: 0 });
    expect(wide).toBeLessThan(19.28 * 1.08);
    expect(wide).toBeGreaterThan(19.28 * 0.9);
  });
});
