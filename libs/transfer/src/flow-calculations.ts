import {
  booleanField,
  type Calculation,
  CalculationInputError,
  choiceField,
  numberField,
  optionalNumberField,
} from '@brimline/quantities';
import { refrigerantField } from '@brimline/refrigerants';
import {
  MACHINE_FIELDS,
  machineField,
  number,
  optional,
  PATH_FIELD,
  pathField,
  REFRIGERANT,
} from './calculation-fields.ts';
import { equaliseTransfer } from './equalise.ts';
import { chokedLiquidFlow, flashingState } from './flashing-flow.ts';
import { gasFlow } from './gas-flow.ts';
import {
  ballValveLoss,
  contractionLoss,
  enlargementLoss,
  reducedPortBallValveLoss,
} from './loss-coefficients.ts';
import { freezeProtection } from './pre-charge.ts';
import { pushPullTransfer } from './push-pull.ts';

const EXAMPLE_PATH = [{ bore_m: 0.0095, length_m: 3, roughness_m: 1e-5, lossCoefficient: 8 }];

const pushPullBalance: Calculation = {
  name: 'push-pull-balance',
  title: 'Steady flow of push-pull and the state at which it settles',
  formula:
    'vapour delivered less what condenses = space that the liquid leaves; hose loss = pressure difference + head; receiver: vapour taken less displaced = heat / latent heat',
  source: 'mass and energy balances; conductances assumed, low confidence',
  fields: [
    REFRIGERANT,
    number('temperature_K', 'K', 'liquid in the vessel that is emptied'),
    ...MACHINE_FIELDS,
    optional('machines', '-', 'machines alike in parallel; 1 unless given'),
    PATH_FIELD,
    { name: 'coolerBypassed', type: 'boolean', unit: '-', meaning: 'true unless given', optional: true },
    optional('cooler_W_K', 'W/K', 'heat conductance of the cooler left in circuit; 50 unless given'),
    optional(
      'coolerTemperature_K',
      'K',
      'what the cooler gives its heat to; 7 K below the liquid unless given',
    ),
    optional('head_m', 'm', "source level above the sink's; negative for a lift; 0 unless given"),
    optional('sourceConductance_W_K', 'W/K', 'vapour to liquid in the source; 300 unless given, a chiller'),
    optional('highestSource_Pa', 'Pa', 'what the source may stand, absolute; no limit unless given'),
    optional('receiverConductance_W_K', 'W/K', 'surroundings to the receiver; 10 unless given, still air'),
  ],
  results: [
    number('massFlow_kg_s', 'kg/s', 'liquid'),
    number('pressureDifference_Pa', 'Pa', 'source over receiver'),
    number('sourceVapourTemperature_K', 'K', 'saturation over the source'),
    number('receiverTemperature_K', 'K', 'saturation in the receiver'),
    number('vapourFlow_kg_s', 'kg/s', 'vapour that the machines move'),
    number('displacingShare', '-', 'share of it that displaces liquid'),
    {
      name: 'isThrottled',
      type: 'boolean',
      unit: '-',
      meaning: 'machines held back so that the source does not pass its highest pressure',
    },
    { name: 'limitedBy', type: 'string', unit: '-', meaning: 'what sets the pace' },
  ],
  example: { refrigerant: 'R-134a', temperature_K: 297.15, vapourRate_kg_s: 0.00378, path: EXAMPLE_PATH },
  run: (input) => {
    const count = optionalNumberField(input, 'machines', 1);
    if (!Number.isInteger(count) || count < 1 || count > 8)
      throw new CalculationInputError('machines', count, '1 to 8');
    const machine = machineField(input);
    const given = <Name extends string>(name: Name) =>
      (input[name] === undefined ? {} : { [name]: numberField(input, name) }) as {
        readonly [name in Name]?: number;
      };
    const { limitedBy, ...state } = pushPullTransfer({
      refrigerant: refrigerantField(input),
      temperature_K: numberField(input, 'temperature_K'),
      machines: Array.from({ length: count }, () => machine),
      path: pathField(input),
      coolerBypassed: booleanField(input, 'coolerBypassed', true),
      head_m: optionalNumberField(input, 'head_m', 0),
      sourceConductance_W_K: optionalNumberField(input, 'sourceConductance_W_K', 300),
      receiverConductance_W_K: optionalNumberField(input, 'receiverConductance_W_K', 10),
      ...given('coolerTemperature_K'),
      ...given('highestSource_Pa'),
    });
    return { ...state, limitedBy: limitedBy.text };
  },
};

const flashingLiquid: Calculation = {
  name: 'flashing-flow',
  title: 'Most liquid that a path passes before it chokes on its own vapour',
  formula:
    'N(m) = 2 rhoL (P0 - Psat)/G^2 + N_flash(G*), G* = G/sqrt(Psat rhoL), never above the nozzle without friction',
  source: 'J. C. Leung 1986, from memory; friction integral derived here',
  fields: [
    REFRIGERANT,
    number('temperature_K', 'K', 'liquid at the inlet'),
    PATH_FIELD,
    optional(
      'margin_Pa',
      'Pa',
      'pressure at the inlet above saturation, static head included; 0 unless given',
    ),
  ],
  results: [number('massFlow_kg_s', 'kg/s', 'choked flow; 0 when a lift takes it all')],
  example: { refrigerant: 'R-134a', temperature_K: 297.15, path: EXAMPLE_PATH },
  run: (input) => ({
    massFlow_kg_s: chokedLiquidFlow({
      path: pathField(input),
      state: flashingState(refrigerantField(input), numberField(input, 'temperature_K')),
      margin_Pa: optionalNumberField(input, 'margin_Pa', 0),
    }),
  }),
};

const hoseGas: Calculation = {
  name: 'gas-flow',
  title: 'Flow of a gas through a hose path, with choking',
  formula: '(m/A)^2 = P1 rho1 (1 - r^2)/(N - 2 ln r), r = P2/P1, not below the ratio of greatest flow',
  source: 'isothermal pipe flow with friction, any gas-dynamics text, from memory',
  fields: [
    number('upstreamPressure_Pa', 'Pa', 'in the vessel that is left, absolute'),
    number('upstreamDensity_kg_m3', 'kg/m3', 'of the gas there'),
    number('viscosity_Pa_s', 'Pa s', 'of the gas'),
    number('downstreamPressure_Pa', 'Pa', 'at the far end, absolute; 0 allowed'),
    PATH_FIELD,
  ],
  results: [
    number('massFlow_kg_s', 'kg/s', 'gas'),
    { name: 'choked', type: 'boolean', unit: '-', meaning: 'a lower pressure at the far end draws no more' },
  ],
  example: {
    upstreamPressure_Pa: 645_800,
    upstreamDensity_kg_m3: 31.4,
    viscosity_Pa_s: 12e-6,
    downstreamPressure_Pa: 100_000,
    path: EXAMPLE_PATH,
  },
  run: (input) => ({
    ...gasFlow({
      upstreamPressure_Pa: numberField(input, 'upstreamPressure_Pa'),
      upstreamDensity_kg_m3: numberField(input, 'upstreamDensity_kg_m3'),
      viscosity_Pa_s: numberField(input, 'viscosity_Pa_s'),
      downstreamPressure_Pa: numberField(input, 'downstreamPressure_Pa'),
      path: pathField(input),
    }),
  }),
};

const equalising: Calculation = {
  name: 'equalise',
  title: 'Liquid moved by a difference of pressure alone',
  formula:
    'hose flow at Psat(source) - Psat(sink) + rho g h; the source cools by rhoV h_fg/(rhoL cL) for each e-fold',
  source: 'Darcy and Weisbach; energy balance of the source',
  fields: [
    REFRIGERANT,
    number('mass_kg', 'kg', 'to be moved'),
    number('sourceLiquid_kg', 'kg', 'liquid in the source'),
    number('source_K', 'K', 'temperature of the source'),
    number('sink_K', 'K', 'temperature of the sink'),
    PATH_FIELD,
    optional('head_m', 'm', "source level above the sink's; 0 unless given"),
    optional('heat_W', 'W', 'heat given to the source: warm water, never flame; 0 unless given'),
  ],
  results: [number('time_s', 's', 'time'), number('startFlow_kg_s', 'kg/s', 'flow at the start')],
  example: {
    refrigerant: 'R-134a',
    mass_kg: 20,
    sourceLiquid_kg: 50,
    source_K: 303.15,
    sink_K: 283.15,
    path: EXAMPLE_PATH,
  },
  run: (input) => {
    const moved = equaliseTransfer({
      refrigerant: refrigerantField(input),
      mass_kg: numberField(input, 'mass_kg'),
      source: {
        liquid_kg: numberField(input, 'sourceLiquid_kg'),
        temperature_K: numberField(input, 'source_K'),
      },
      sink_K: numberField(input, 'sink_K'),
      path: pathField(input),
      head_m: optionalNumberField(input, 'head_m', 0),
      heat_W: optionalNumberField(input, 'heat_W', 0),
    });
    if (!moved.ok) throw new CalculationInputError('mass_kg', input['mass_kg'], moved.problems[0]!.message);
    return { ...moved.value };
  },
};

const freezing: Calculation = {
  name: 'freeze-protection',
  title: 'What keeps the tubes whole while liquid goes into an evacuated machine',
  formula:
    'proven flow or drained barrels, vapour first up to the safe saturation, entry away from the evaporator',
  source: 'service texts on charging into a vacuum; local code and the licensed technician decide',
  fields: [
    {
      name: 'fluid',
      type: 'string',
      unit: '-',
      meaning: 'in the evaporator',
      allowed: 'water, glycol, none',
    },
    { name: 'waterFlow', type: 'boolean', unit: '-', meaning: 'can it flow' },
    {
      name: 'entry',
      type: 'string',
      unit: '-',
      meaning: 'of the liquid',
      allowed: 'liquid line, evaporator',
    },
  ],
  results: [
    { name: 'applies', type: 'list', unit: '-', meaning: 'protections, in order of preference' },
    { name: 'forbidden', type: 'list', unit: '-', meaning: 'what must not be done' },
  ],
  example: { fluid: 'water', waterFlow: true, entry: 'liquid line' },
  run: (input) => ({
    ...freezeProtection({
      fluid: choiceField(input, 'fluid', ['water', 'glycol', 'none']),
      waterFlow: booleanField(input, 'waterFlow', false),
      entry: choiceField(input, 'entry', ['liquid line', 'evaporator']),
    }),
  }),
};

const FITTINGS = {
  'step down': contractionLoss,
  'step up': enlargementLoss,
  'full-bore ball valve': (bore_m: number) => ballValveLoss(bore_m),
  'reduced-port ball valve': reducedPortBallValveLoss,
} as const;
type Fitting = keyof typeof FITTINGS;
const FITTING_NAMES = Object.keys(FITTINGS) as Fitting[];

const fittingLoss: Calculation = {
  name: 'fitting-loss',
  title: 'Velocity heads that a step or a valve takes',
  formula:
    'step down 0.5 (1 - b^2), step up (1 - b^2)^2 on the smaller bore, b = d/D; full-bore ball valve 3 fT; reduced port 3 fT/b^4 and both steps over b^4, on the larger bore',
  source: 'Crane TP-410 as worked in fluids 1.3.1',
  fields: [
    { name: 'fitting', type: 'string', unit: '-', meaning: 'kind', allowed: FITTING_NAMES.join(', ') },
    number('bore_m', 'm', 'bore of the valve, or smaller bore of a step'),
    optional('largeBore_m', 'm', 'larger bore; needed for steps and reduced ports'),
  ],
  results: [number('lossCoefficient', '-', 'on the smaller bore of a step, else on the larger bore')],
  example: { fitting: 'reduced-port ball valve', bore_m: 0.00889, largeBore_m: 0.0127 },
  run: (input) => {
    const fitting = choiceField(input, 'fitting', FITTING_NAMES);
    const bore_m = numberField(input, 'bore_m');
    const large_m = fitting === 'full-bore ball valve' ? bore_m : numberField(input, 'largeBore_m');
    return { lossCoefficient: FITTINGS[fitting](bore_m, large_m) };
  },
};

/** Steady flows and their parts, beside the whole transfers. */
export const flowCalculations: readonly Calculation[] = [
  pushPullBalance,
  flashingLiquid,
  hoseGas,
  equalising,
  freezing,
  fittingLoss,
];
