import type { RuleFacts } from '../rule-facts.ts';

/** Leak repair of appliances with ozone-depleting refrigerants. */
export const LEAK_RULE_82_157: RuleFacts & {
  readonly from: string;
  readonly leastCharge_lb: number;
  readonly refrigerants: readonly string[];
} = {
  citation: '40 CFR 82.157(a)',
  trueOn: '2024-12-31',
  basis: 'read',
  notes: ['Class I and II substances and blends that hold any; refrigerants without them left the rule on 2020-04-10.'],
  from: '2020-04-10',
  leastCharge_lb: 50,
  refrigerants: ['R-11', 'R-12', 'R-22', 'R-113', 'R-114', 'R-115', 'R-123', 'R-124', 'R-142b', 'R-500', 'R-502'],
};

/** Leak repair of appliances with hydrofluorocarbons, or substitutes of high warming potential. */
export const LEAK_RULE_84_106: RuleFacts & {
  readonly from: string;
  readonly leastCharge_lb: number;
  readonly hydrofluorocarbons: readonly string[];
  readonly substituteGwpAbove: number;
} = {
  citation: '40 CFR 84.106(a) (89 FR 82682)',
  trueOn: '2024-10-11',
  basis: 'read second hand',
  notes: [
    'Leaves out the residential and light commercial air-conditioning and heat pump subsector.',
    'The venting ban and the recovery levels of 82.156 hold for every refrigerant but the exempt ones.',
  ],
  from: '2026-01-01',
  leastCharge_lb: 15,
  hydrofluorocarbons: ['R-23', 'R-32', 'R-125', 'R-134a', 'R-143a', 'R-152a', 'R-227ea', 'R-236fa', 'R-245fa'],
  substituteGwpAbove: 53,
};

/** Automatic leak detection. Chillers for comfort cooling are not covered. */
export const LEAK_DETECTION_84_108: RuleFacts & {
  readonly leastCharge_lb: number;
  readonly uses: readonly string[];
  readonly newFrom: string;
  readonly newWithin_days: number;
  readonly existingFrom: string;
  readonly existingBy: string;
} = {
  citation: '40 CFR 84.108',
  trueOn: '2024-10-11',
  basis: 'from memory',
  notes: [
    'New appliances: at installation or within 30 days; installed from 2017 to 2025: by 1 January 2027.',
    'Direct detectors see 10 ppm and alarm at 100 ppm; indirect ones alarm at 50 lb or 10 % of the charge, whichever is less.',
  ],
  leastCharge_lb: 1500,
  uses: ['commercial refrigeration', 'industrial process'],
  newFrom: '2026-01-01',
  newWithin_days: 30,
  existingFrom: '2017-01-01',
  existingBy: '2027-01-01',
};
