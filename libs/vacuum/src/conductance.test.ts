import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apertureConductance,
  inParallel,
  inSeries,
  shortTubeConductance,
  tubeConductance,
} from './conductance.ts';
import {
  chokedSpeed,
  GASES,
  gasNamed,
  massOfThroughput,
  meanMolecularSpeed,
  viscosityOfGas,
} from './gases.ts';
import { turbulenceFactor } from './turbulence.ts';

const MICRON = 101.325 / 760;
const ROOM_K = 293.15;
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);
const at = (bore_m: number, length_m: number, meanPressure_Pa: number, temperature_K = ROOM_K) =>
  tubeConductance({ bore_m, length_m, meanPressure_Pa, temperature_K });

describe('gases', () => {
  it('has the mean molecular speed of air', () => {
    // Computed independently: exact constants.
    expect(relative(meanMolecularSpeed(GASES.air, ROOM_K), 462.911086)).toBeLessThan(1e-6);
  });

  it('has the viscosity of air at 0 and 100 degC within 1 %', () => {
    // From memory of standard tables: 17.2 and 21.8 uPa s.
    expect(relative(viscosityOfGas(GASES.air, 273.15), 17.2e-6)).toBeLessThan(0.01);
    expect(relative(viscosityOfGas(GASES.air, 373.15), 21.8e-6)).toBeLessThan(0.01);
  });

  it('chokes at 20 L/s for each cm2 of air', () => {
    // Umrath et al., Fundamentals of Vacuum Technology, from memory: 20 A with A in cm2.
    expect(relative(chokedSpeed(GASES.air, ROOM_K) * 1e-4, 20e-3)).toBeLessThan(0.01);
  });

  it('turns throughput into mass', () => {
    // Density of air at 101325 Pa and 20 degC, from memory of standard tables: 1.204 kg/m3.
    expect(relative(massOfThroughput(101325, GASES.air, ROOM_K), 1.204)).toBeLessThan(0.001);
  });

  it('refuses an unknown gas and names inherited from objects', () => {
    expect(() => gasNamed('argonaut')).toThrow(/air, nitrogen/);
    expect(() => gasNamed('toString')).toThrow(/air, nitrogen/);
  });
});

describe('tube conductance', () => {
  it('meets a published example: molecular pipe in series with a pump', () => {
    // Vacuum Technology Know-How (a pump-maker handbook, older web edition), section 7.3.2: c = 471 m/s, d = 0.07 m,
    // l = 2.47 m give 0.017123 m3/s; with S = 0.029722 m3/s, 0.010864 m3/s. The speed fixes the temperature.
    const temperature_K = ROOM_K * (471 / meanMolecularSpeed(GASES.air, ROOM_K)) ** 2;
    const { conductance_m3_s, regime } = at(0.07, 2.47, 1e-9, temperature_K);
    expect(relative(conductance_m3_s, 0.017123)).toBeLessThan(1e-3);
    expect(regime).toBe('molecular');
    expect(relative(inSeries([conductance_m3_s, 0.029722]), 0.010864)).toBeLessThan(1e-3);
  });

  it.each([
    // Computed independently: Knudsen's formula with 135 and 12.1.
    ['19 mm x 3 m at 500 micron', 0.019, 3, 500, 4.133601442e-3],
    ['9.5 mm x 3 m at 500 micron', 0.0095, 3, 500, 0.2723900568e-3],
    ['6.4 mm x 1.5 m at 1000 micron', 0.0064, 1.5, 1000, 0.2184609584e-3],
  ])('%s', (_, bore_m, length_m, micron, expected) => {
    expect(relative(at(bore_m, length_m, micron * MICRON).conductance_m3_s, expected)).toBeLessThan(0.005);
  });

  it('has the viscous and the molecular limit', () => {
    // Computed independently: Poiseuille; 135 d4 p/l read in a public lecture note. Slip adds 0.07 % at this pressure.
    const thick = at(0.01, 0.01, 1e5);
    expect(relative(thick.conductance_m3_s, 134.8554539)).toBeLessThan(0.001);
    expect(thick.regime).toBe('viscous');
    // Computed independently: Knudsen's limit; 12.1 d3/l read in several public pages.
    const thin = at(0.01, 0.01, 1e-6);
    expect(relative(thin.conductance_m3_s, 12.11898389e-3)).toBeLessThan(1e-5);
    expect(thin.regime).toBe('molecular');
    expect(at(0.0095, 3, 66).regime).toBe('transition');
  });

  it('has a minimum below the molecular limit, as Knudsen found', () => {
    // Knudsen 1909, from memory: a flat minimum some 5 % deep near Kn = 1.
    const molecular = at(0.01, 1, 1e-6).conductance_m3_s;
    const lowest = Math.min(
      ...Array.from({ length: 200 }, (_, i) => at(0.01, 1, 0.01 * 1.06 ** i).conductance_m3_s),
    );
    expect(lowest / molecular).toBeGreaterThan(0.9);
    expect(lowest / molecular).toBeLessThan(0.98);
  });

  it('passes another gas as kinetic theory has it', () => {
    const gas = (name: keyof typeof GASES, meanPressure_Pa: number) =>
      tubeConductance({ bore_m: 0.01, length_m: 1, meanPressure_Pa, temperature_K: ROOM_K, gas: GASES[name] })
        .conductance_m3_s;
    // Computed independently: sqrt(28.9647/4.0026) and 18.2/9.7.
    expect(relative(gas('helium', 1e-6) / gas('air', 1e-6), 2.69007)).toBeLessThan(1e-4);
    expect(relative(gas('water vapour', 1e5) / gas('air', 1e5), 1.87629)).toBeLessThan(1e-3);
  });

  it('refuses a bore of nothing and a negative pressure', () => {
    expect(() => at(0, 1, 1)).toThrow(/bore/);
    expect(() => at(0.01, 0, 1)).toThrow(/length/);
    expect(() => at(0.01, 1, -1)).toThrow(/pressure/);
    expect(() => at(0.01, 1, 1, 0)).toThrow(/temperature/);
  });

  it('grows with bore and falls with length everywhere, and grows with pressure above the minimum', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.003, max: 0.06, noNaN: true }),
        fc.double({ min: 0.5, max: 20, noNaN: true }),
        fc.double({ min: -3, max: 5, noNaN: true }),
        (bore_m, length_m, decade) => {
          const pressure_Pa = 10 ** decade;
          const base = at(bore_m, length_m, pressure_Pa).conductance_m3_s;
          expect(at(bore_m * 1.01, length_m, pressure_Pa).conductance_m3_s).toBeGreaterThan(base);
          expect(at(bore_m, length_m * 1.01, pressure_Pa).conductance_m3_s).toBeLessThan(base);
          if (pressure_Pa * bore_m > 0.02) {
            expect(at(bore_m, length_m, pressure_Pa * 1.01).conductance_m3_s).toBeGreaterThan(base);
          }
        },
      ),
    );
  });
});

describe('apertures and lines', () => {
  it('has the thin aperture of kinetic theory', () => {
    // Computed independently: exact; 11.6 L/s for each cm2 in the literature.
    expect(relative(apertureConductance(1e-4, GASES.air, ROOM_K), 11.57277715e-3)).toBeLessThan(1e-5);
  });

  it('gives a short tube between aperture and long tube', () => {
    // Clausing's transmission probability of l = d, from memory: 0.5136. The sum of resistances gives 0.571.
    const [bore_m, length_m] = [0.02, 0.02];
    const short = shortTubeConductance({ bore_m, length_m, meanPressure_Pa: 1e-6, temperature_K: ROOM_K });
    const probability = short / apertureConductance((Math.PI / 4) * bore_m ** 2, GASES.air, ROOM_K);
    expect(relative(probability, 0.5136)).toBeLessThan(0.12);
    const long = { bore_m, length_m: 10, meanPressure_Pa: 1e-6, temperature_K: ROOM_K };
    expect(relative(shortTubeConductance(long), tubeConductance(long).conductance_m3_s)).toBeLessThan(0.005);
  });

  it('adds conductances', () => {
    expect(inSeries([2, 2])).toBe(1);
    expect(inSeries([1, 0])).toBe(0);
    expect(inParallel([2, 3])).toBe(5);
  });

  it('leaves laminar flow alone and slows turbulent flow without a step', () => {
    // Computed independently with scipy's root finder on Prandtl's law: K = sqrt(64 x 50000) = 1788.85, Re = 10205.7.
    expect(relative(turbulenceFactor(50_000), 10_205.7 / 50_000)).toBeLessThan(1e-5);
    expect(turbulenceFactor(900)).toBe(1);
    let before = 1;
    for (let reynolds = 900; reynolds < 1e6; reynolds *= 1.001) {
      const factor = turbulenceFactor(reynolds);
      expect(factor).toBeLessThanOrEqual(before);
      expect(before - factor).toBeLessThan(0.001);
      before = factor;
    }
  });
});
